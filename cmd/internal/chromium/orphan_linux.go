package chromium

import "syscall"

// dieWithParent makes the browser end when the program that started it is gone, even
// if that had no time to end it.
func dieWithParent(attr *syscall.SysProcAttr) { attr.Pdeathsig = syscall.SIGKILL }
