package fieldkit

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// barred are packages that nothing under fieldkit imports: it knows no browser,
// no network, and brings nothing large into the WebAssembly.
var barred = []string{"syscall/js", "github.com/maxence-charriere/", "net", "net/http", "os", "os/exec", "text/template", "html/template", "encoding/xml", "trailfieldkit/app", "trailfieldkit/data", "trailfieldkit/web", "trailfieldkit/cmd/"}

// The domain is pure: its source imports nothing of the above, and reads no
// clock and no chance of its own. (Only direct imports are looked at: the
// standard library itself reaches syscall/js in a browser.)
func TestDomainIsPure(t *testing.T) {
	read := 0
	err := filepath.WalkDir(".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		if strings.HasSuffix(filepath.Dir(path), "test") {
			return nil // an acceptance suite, linked into tests only
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		read++
		for _, imported := range file.Imports {
			name := strings.Trim(imported.Path.Value, `"`)
			for _, b := range barred {
				assert.False(t, name == b || strings.HasSuffix(b, "/") && strings.HasPrefix(name, b), "%s imports %s", path, name)
			}
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok {
				if pkg, ok := s.X.(*ast.Ident); ok && pkg.Name == "time" {
					assert.NotContains(t, []string{"Now", "Since", "Until"}, s.Sel.Name, "%s reads the clock", path)
				}
			}
			return true
		})
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, read, 20)
}
