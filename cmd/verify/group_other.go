//go:build !unix

package main

import (
	"os/exec"
	"time"
)

// endTogether ends the program itself when its context ends.
func endTogether(cmd *exec.Cmd) { cmd.WaitDelay = 5 * time.Second }
