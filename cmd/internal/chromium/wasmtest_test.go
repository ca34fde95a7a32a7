//go:build browser

package chromium

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const small = `package small

import (
	"syscall/js"
	"testing"
)

func TestStoresAreThere(t *testing.T) {
	for _, name := range []string{"indexedDB", "caches", "BroadcastChannel"} {
		if js.Global().Get(name).IsUndefined() {
			t.Error(name + " is missing")
		}
	}
	if !js.Global().Get("isSecureContext").Bool() {
		t.Error("the page is not a secure context")
	}
}

func TestFails(t *testing.T) { t.Error("this one fails: äöü") }

func TestPanics(t *testing.T) { panic("on purpose") }
`

func TestWasmTestsRunInAPage(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "go.mod"), []byte("module small\n\ngo 1.26\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "small_test.go"), []byte(small), 0o644))
	compile := exec.Command("go", "test", "-c", "-o", "small.wasm", ".")
	compile.Dir = dir
	compile.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	said, err := compile.CombinedOutput()
	require.NoError(t, err, string(said))
	binary, err := os.ReadFile(filepath.Join(dir, "small.wasm"))
	require.NoError(t, err)

	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	for name, c := range map[string]struct {
		run    string
		status int
		says   string
	}{
		"a test that passes": {"StoresAreThere", 0, "--- PASS: TestStoresAreThere"},
		"a test that fails":  {"Fails", 1, "this one fails: äöü"},
		"a test that panics": {"Panics", 2, "panic: on purpose"},
	} {
		t.Run(name, func(t *testing.T) {
			result, err := RunWasmTest(ctx, binary, "-test.v", "-test.run", "^Test"+c.run+"$")
			require.NoError(t, err)
			assert.Equal(t, c.status, result.Status, result.Output)
			assert.Contains(t, result.Output, c.says)
		})
	}
}
