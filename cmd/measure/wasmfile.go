package main

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// codeSizes is what a WebAssembly file is made of.
type codeSizes struct {
	functions map[string]int // bytes of code by the function's name
	data      int            // types, strings, tables of the runtime
	other     int
}

var errCut = errors.New("the WebAssembly file ends too early")

// Sections, as numbered by the WebAssembly Core Specification, Binary Format, 5.5.2.
const (
	customSection = 0
	importSection = 2
	codeSection   = 10
	dataSection   = 11
)

// readWasm adds up the code by function. The file needs its name section, which
// the linker leaves out with -s.
func readWasm(file []byte) (codeSizes, error) {
	sizes := codeSizes{functions: map[string]int{}}
	if len(file) < 8 || string(file[:4]) != "\x00asm" {
		return sizes, errors.New("not a WebAssembly file")
	}
	r := &reader{rest: file[8:]}
	var bodies []int
	var names map[int]string
	imported := 0
	for len(r.rest) > 0 && r.err == nil {
		kind := r.byte()
		body := &reader{rest: r.bytes(r.number())}
		size := len(body.rest)
		switch kind {
		case importSection:
			imported = body.importedFunctions()
			sizes.other += size
		case codeSection:
			for range body.number() {
				bodies = append(bodies, len(body.bytes(body.number())))
			}
		case dataSection:
			sizes.data += size
		case customSection:
			if name := body.text(); name == "name" {
				names = body.functionNames()
			} else {
				sizes.other += size
			}
		default:
			sizes.other += size
		}
		r.err = errors.Join(r.err, body.err)
	}
	if r.err != nil {
		return sizes, r.err
	}
	if len(names) == 0 {
		return sizes, errors.New("the WebAssembly file names no functions: it was linked with -s")
	}
	for i, size := range bodies {
		sizes.functions[names[imported+i]] += size
	}
	return sizes, nil
}

// reader reads the binary format; after a fault it gives zeros.
type reader struct {
	rest []byte
	err  error
}

func (r *reader) byte() byte {
	b := r.bytes(1)
	if len(b) == 0 {
		return 0
	}
	return b[0]
}

func (r *reader) bytes(n int) []byte {
	if n < 0 || n > len(r.rest) {
		r.err, r.rest = errCut, nil
		return nil
	}
	taken := r.rest[:n]
	r.rest = r.rest[n:]
	return taken
}

// number reads an unsigned LEB128, which is Go's Uvarint.
func (r *reader) number() int {
	n, used := binary.Uvarint(r.rest)
	if used <= 0 {
		r.err, r.rest = errCut, nil
		return 0
	}
	r.rest = r.rest[used:]
	return int(n)
}

func (r *reader) text() string { return string(r.bytes(r.number())) }

// importedFunctions counts them: they take the first numbers. Kinds of imports are
// function 0, table 1, memory 2 and global 3; Go imports functions only.
func (r *reader) importedFunctions() (count int) {
	for range r.number() {
		module, name := r.text(), r.text()
		if kind := r.byte(); kind != 0 {
			r.err = errors.Join(r.err, fmt.Errorf("import %s.%s is no function", module, name))
			return count
		}
		r.number()
		count++
	}
	return count
}

// functionNames reads the part of the name section that names functions.
func (r *reader) functionNames() map[int]string {
	const functions = 1
	names := map[int]string{}
	for len(r.rest) > 0 {
		kind := r.byte()
		part := &reader{rest: r.bytes(r.number())}
		if kind != functions {
			continue
		}
		for range part.number() {
			index := part.number()
			names[index] = part.text()
		}
		r.err = errors.Join(r.err, part.err)
	}
	return names
}
