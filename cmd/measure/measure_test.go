package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A file by hand, after the WebAssembly Core Specification 2.0, Binary Format 5.5:
// one imported function, two of its own of 3 and 5 bytes, 4 bytes of data, and a
// name section.
func handMade(withNames bool) []byte {
	section := func(id byte, body ...byte) []byte { return append([]byte{id, byte(len(body))}, body...) }
	text := func(s string) []byte { return append([]byte{byte(len(s))}, s...) }
	join := func(parts ...[]byte) (all []byte) {
		for _, p := range parts {
			all = append(all, p...)
		}
		return all
	}
	file := []byte("\x00asm\x01\x00\x00\x00")
	imports := join([]byte{1}, text("env"), text("f"), []byte{0, 0})
	code := []byte{2, 3, 0, 1, 0x0b, 5, 0, 1, 1, 1, 0x0b}
	names := join([]byte{2}, []byte{1}, text("fmt.Println"), []byte{2}, text("example.org_kit.__Rig_.Fit"))
	file = join(file, section(2, imports...), section(10, code...), section(11, 1, 2, 3, 4))
	if withNames {
		file = join(file, section(0, join(text("name"), section(1, names...))...))
	}
	return file
}

func TestReadWasm(t *testing.T) {
	sizes, err := readWasm(handMade(true))
	require.NoError(t, err)
	assert.Equal(t, map[string]int{"fmt.Println": 3, "example.org_kit.__Rig_.Fit": 5}, sizes.functions)
	assert.Equal(t, 4, sizes.data)
}

func TestReadWasmRefuses(t *testing.T) {
	_, err := readWasm(handMade(false))
	assert.ErrorContains(t, err, "linked with -s")
	_, err = readWasm([]byte("<!doctype html>"))
	assert.ErrorContains(t, err, "not a WebAssembly file")
	whole := handMade(true)
	for cut := 9; cut < len(whole); cut++ {
		_, err := readWasm(whole[:cut])
		assert.Error(t, err, "cut at %d of %d", cut, len(whole))
	}
}

func TestPackageOfAFunction(t *testing.T) {
	sum := byPackage(codeSizes{functions: map[string]int{
		"fmt.Println":                      1,
		"example.org_kit.__Rig_.Fit":       2,
		"example.org_kit_parts.Find":       4,
		"example.org_kit_parts.Find.func1": 8,
		"slices.SortFunc_go.shape.int_":    16,
		"type_.eq.example.org_kit.Rig":     32,
		"go_export":                        64,
		"_rt0_wasm_js":                     128,
	}}, []string{"fmt", "slices", "example.org/kit", "example.org/kit/parts"})
	assert.Equal(t, map[string]int{
		"fmt": 1, "example.org/kit": 2, "example.org/kit/parts": 12, "slices": 16, madeByCompiler: 224,
	}, sum)
}

func TestPackagesInOrderOfWhatTheyAdd(t *testing.T) {
	assert.Equal(t, []string{"b", "a", "c", "d"},
		bySize(map[string]int{"a": 100, "b": 90, "c": 7, "d": 7}, map[string]int{"a": 80, "d": 0}))
}

func TestMedian(t *testing.T) {
	assert.Equal(t, 2.0, median([]float64{9, 1, 2}))
	assert.Equal(t, 2.5, median([]float64{9, 1, 2, 3}))
	assert.Equal(t, 0.0, median(nil))
}

func TestGrouped(t *testing.T) {
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1,000", 6961366: "6,961,366", -1234: "-1,234"} {
		assert.Equal(t, want, grouped(n))
	}
}
