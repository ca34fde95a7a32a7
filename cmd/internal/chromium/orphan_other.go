//go:build unix && !linux

package chromium

import "syscall"

// dieWithParent does nothing: only Linux offers it.
func dieWithParent(*syscall.SysProcAttr) {}
