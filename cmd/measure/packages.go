package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"trailfieldkit/cmd/internal/build"
)

// others is how many packages that are not ours are listed.
const others = 30

// printPackages lists the code each package brings, ours and the largest others,
// beside the same package in the bare page. Data (types, strings, tables) is not
// kept by package in the file and stands in one line.
func printPackages(ctx context.Context, out io.Writer, say func(string), bare, program subject) error {
	a, err := named(ctx, say, bare)
	if err != nil {
		return err
	}
	b, err := named(ctx, say, program)
	if err != nil {
		return err
	}
	paths, err := program.packages(ctx)
	if err != nil {
		return err
	}
	inBare, inProgram := byPackage(a, paths), byPackage(b, paths)
	fmt.Fprintf(out, "%-58s %10s %10s %10s\n", "code by package, kB", "program", "bare page", "adds")
	line := func(name string, inProgram, inBare int) {
		fmt.Fprintf(out, "%-58s %10.1f %10.1f %10.1f\n", name, kB(inProgram), kB(inBare), kB(inProgram-inBare))
	}
	ours, foreign := 0, []string{}
	for _, name := range bySize(inProgram, inBare) {
		if strings.HasPrefix(name, "trailfieldkit/") {
			line(name, inProgram[name], inBare[name])
			ours += inProgram[name]
			continue
		}
		foreign = append(foreign, name)
	}
	line("= ours", ours, 0)
	rest, restBare := 0, 0
	for i, name := range foreign {
		if i < others {
			line(name, inProgram[name], inBare[name])
			continue
		}
		rest += inProgram[name]
		restBare += inBare[name]
	}
	line(fmt.Sprintf("%d more", max(0, len(foreign)-others)), rest, restBare)
	line("= all code", total(inProgram), total(inBare))
	line("data: types, strings, tables of the runtime", b.data, a.data)
	return nil
}

// printFunctions lists the largest functions, as the linker writes their names. A
// generic function stands there once for each shape of type it is used with.
func printFunctions(ctx context.Context, out io.Writer, say func(string), s subject) error {
	const largest = 80
	sizes, err := named(ctx, say, s)
	if err != nil {
		return err
	}
	names := bySize(sizes.functions, nil)
	for _, name := range names[:min(largest, len(names))] {
		fmt.Fprintf(out, "%10.1f kB  %.160s\n", kB(sizes.functions[name]), name)
	}
	return nil
}

// named builds a subject once more with its function names and adds up its code.
func named(ctx context.Context, say func(string), s subject) (codeSizes, error) {
	say("building the " + s.name + " with its names")
	o := s.from
	o.Symbols = true
	out, err := build.WebAssembly(ctx, o)
	if err != nil {
		return codeSizes{}, err
	}
	return readWasm(out.Wasm)
}

// madeByCompiler stands for code that belongs to no package: comparing and hashing of
// types, and the wrappers of exports.
const madeByCompiler = "(made by the compiler)"

func byPackage(sizes codeSizes, paths []string) map[string]int {
	known := map[string]string{}
	for _, path := range paths {
		known[plainName(path)] = path
	}
	sum := map[string]int{}
	for function, size := range sizes.functions {
		sum[packageOf(function, known)] += size
	}
	return sum
}

// packageOf finds the package a function belongs to: the longest known path that the
// name begins with, before a dot. Code of a generic function counts for the package
// that wrote it, also where ours makes it grow by the types it is used with.
func packageOf(function string, known map[string]string) string {
	for cut := strings.LastIndexByte(function, '.'); cut > 0; cut = strings.LastIndexByte(function[:cut], '.') {
		if path, is := known[function[:cut]]; is {
			return path
		}
	}
	return madeByCompiler
}

// plainName is how the linker writes a path into the file: what is no letter, digit,
// underscore or dot becomes an underscore.
func plainName(path string) string {
	return strings.Map(func(r rune) rune {
		if r == '.' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			return r
		}
		return '_'
	}, path)
}

// bySize orders packages by what they add over the bare page, largest first.
func bySize(program, bare map[string]int) []string {
	return slices.SortedFunc(maps.Keys(program), func(x, y string) int {
		return cmp.Or(cmp.Compare(program[y]-bare[y], program[x]-bare[x]), strings.Compare(x, y))
	})
}

func total(sum map[string]int) (all int) {
	for _, size := range sum {
		all += size
	}
	return all
}

func kB(bytes int) float64 { return float64(bytes) / 1000 }
