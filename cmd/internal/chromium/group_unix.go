//go:build unix

package chromium

import (
	"os"
	"os/exec"
	"syscall"
)

// ownGroup makes the browser the head of a process group, so that all of it can be
// ended at once.
func ownGroup(cmd *exec.Cmd) {
	if cmd.SysProcAttr == nil {
		cmd.SysProcAttr = &syscall.SysProcAttr{}
	}
	cmd.SysProcAttr.Setpgid = true
	dieWithParent(cmd.SysProcAttr)
}

func killGroup(p *os.Process) { syscall.Kill(-p.Pid, syscall.SIGKILL) }
