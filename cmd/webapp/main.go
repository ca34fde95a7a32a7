// Command webapp is the program that runs in the browser, compiled to
// WebAssembly.
package main

import "trailfieldkit/app"

func main() { app.Run() }
