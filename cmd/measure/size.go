package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"strings"

	"github.com/andybalholm/brotli"
)

type sizes struct{ raw, gzip, brotli int }

// printSizes shows the bytes of the WebAssembly, the only large file.
func printSizes(out io.Writer, bare, program subject, quick bool) {
	quality := brotli.BestCompression
	if quick {
		quality = 5
	}
	a, b := squeezed(bare.out.Wasm, quality), squeezed(program.out.Wasm, quality)
	fmt.Fprintf(out, "%-34s %12s %12s %12s\n", "WebAssembly, bytes", "raw", "gzip 9", fmt.Sprintf("brotli %d", quality))
	for _, row := range []struct {
		name string
		sizes
	}{{bare.name, a}, {program.name, b}} {
		fmt.Fprintf(out, "%-34s %12s %12s %12s\n", row.name, grouped(row.raw), grouped(row.gzip), grouped(row.brotli))
	}
	fmt.Fprintf(out, "%-34s %12s %12s %12s\n\n", fmt.Sprintf("ratio (goal %.2f)", sizeGoal),
		ratio(b.raw, a.raw), ratio(b.gzip, a.gzip), ratio(b.brotli, a.brotli))
}

func squeezed(wasm []byte, quality int) sizes {
	var zip, br bytes.Buffer
	z, _ := gzip.NewWriterLevel(&zip, gzip.BestCompression)
	z.Write(wasm)
	z.Close()
	b := brotli.NewWriterLevel(&br, quality)
	b.Write(wasm)
	b.Close()
	return sizes{raw: len(wasm), gzip: zip.Len(), brotli: br.Len()}
}

func ratio(a, b int) string { return fmt.Sprintf("%.2f", float64(a)/float64(b)) }

// grouped prints 6961366 as 6,961,366.
func grouped(n int) string {
	digits := fmt.Sprint(n)
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 && digits[i-1] != '-' {
			b.WriteByte(',')
		}
		b.WriteRune(d)
	}
	return b.String()
}
