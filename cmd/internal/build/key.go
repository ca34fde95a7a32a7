package build

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// listed is what go list tells of a package, as far as it matters here.
type listed struct {
	Dir        string
	ImportPath string
	Standard   bool
	GoFiles    []string
	SFiles     []string
	EmbedFiles []string
	Error      *struct{ Err string }
	DepsErrors []struct{ Err string }
}

// key hashes the version of Go, the flags and every file outside the standard
// library that the package is compiled from, with those it embeds. It also counts
// the packages, for the progress line.
func (t toolchain) key(ctx context.Context, o Options) (key string, packages int, err error) {
	version, err := t.run(ctx, nil, "env", "GOVERSION", "GOFLAGS", "GOEXPERIMENT", "GOWASM")
	if err != nil {
		return "", 0, fmt.Errorf("go env: %w", err)
	}
	said, err := t.run(ctx, nil, "list", "-e", "-deps",
		"-json=Dir,ImportPath,Standard,GoFiles,SFiles,EmbedFiles,Error,DepsErrors", o.Package)
	if err != nil {
		return "", 0, notFound(o.Package, firstFault(said))
	}
	sum := sha256.New()
	fmt.Fprintf(sum, "%s\n%s\n%v %v\n", version, o.Package, o.flags(), o.Symbols)
	decode := json.NewDecoder(strings.NewReader(said))
	for {
		var p listed
		if err := decode.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return "", 0, notFound(o.Package, firstFault(said))
		}
		packages++
		if p.Standard {
			continue
		}
		if p.Error != nil && len(p.GoFiles) == 0 {
			return "", 0, notFound(p.ImportPath, strings.TrimSpace(p.Error.Err))
		}
		if err := hashFiles(sum, p); err != nil {
			return "", 0, notFound(p.ImportPath, err.Error())
		}
	}
	return hex.EncodeToString(sum.Sum(nil)[:12]), packages, nil
}

func hashFiles(sum io.Writer, p listed) error {
	for _, name := range slices.Concat(p.GoFiles, p.SFiles, p.EmbedFiles) {
		body, err := os.ReadFile(filepath.Join(p.Dir, name))
		if err != nil {
			return err
		}
		fmt.Fprintf(sum, "%s/%s %d\n", p.ImportPath, name, len(body))
		sum.Write(body)
	}
	return nil
}

func notFound(where, what string) error {
	return &fieldkit.Error{Kind: fieldkit.NotFound, Where: where, What: what,
		Do: "check that the folder is there and that its modules can be fetched (go mod download)"}
}
