// Package build compiles the program to WebAssembly and keeps the result until a
// source changes.
//
//	out, err := build.WebAssembly(ctx, build.Options{Report: progress})
//	site, err := web.Render(web.Input{Wasm: out.Wasm, WasmExec: out.WasmExec})
//
// The result lies in the user's cache folder under a key made from the content of
// every source file the program is compiled from and the version of Go. Changing a
// test or a native command does not build the program again.
//
// It needs the Go toolchain and the repository's source; it fetches nothing but
// missing modules, which the toolchain does by itself.
package build
