package main

import (
	"context"
	"io"
)

func printLoad(ctx context.Context, out io.Writer, say func(string)) error {
	return printDomainLoad(out, say)
}
