//go:build !unix

package chromium

import (
	"os"
	"os/exec"
)

func ownGroup(*exec.Cmd) {}

// killGroup ends the main process; its children end when they lose it.
func killGroup(p *os.Process) { p.Kill() }
