//go:build unix

package main

import (
	"os/exec"
	"syscall"
	"time"
)

// endTogether makes a program and all it starts end when its context ends: a test
// that hangs must not leave a browser behind.
func endTogether(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	cmd.Cancel = func() error { return syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) }
	cmd.WaitDelay = 5 * time.Second
}
