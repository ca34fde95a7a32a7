package build

import (
	"bytes"
	"context"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// module is a WebAssembly file with one custom section before its data.
func module(pieces []piece) []byte {
	data := writePieces(pieces)
	wasm := []byte("\x00asm\x01\x00\x00\x00\x00\x03\x02hi\x0b")
	for n := len(data); ; n >>= 7 {
		if n < 0x80 {
			wasm = append(wasm, byte(n))
			break
		}
		wasm = append(wasm, byte(n)|0x80)
	}
	return append(wasm, data...)
}

// memory lays the pieces of a file out.
func memory(t *testing.T, pieces []piece) []byte {
	t.Helper()
	size := 0
	for _, p := range pieces {
		size = max(size, p.at+len(p.body))
	}
	image := make([]byte, size)
	for _, p := range pieces {
		copy(image[p.at:], p.body)
	}
	return image
}

// piecesOf reads the data of a file back.
func piecesOf(t *testing.T, wasm []byte) (pieces []piece) {
	t.Helper()
	r := wasm[8:]
	for len(r) > 0 {
		size, used := 0, 1
		for shift := 0; ; shift += 7 {
			size |= int(r[used]&0x7f) << shift
			if used++; r[used-1] < 0x80 {
				break
			}
		}
		if r[0] == dataSection {
			var err error
			pieces, err = readPieces(r[used : used+size])
			require.NoError(t, err)
		}
		r = r[used+size:]
	}
	return pieces
}

func TestJoinedPiecesFillTheSameMemory(t *testing.T) {
	chance := rand.New(rand.NewSource(1))
	for range 100 {
		var pieces []piece
		for at := chance.Intn(5000); len(pieces) < 40; {
			body := make([]byte, 1+chance.Intn(300))
			chance.Read(body)
			pieces = append(pieces, piece{at, body})
			at += len(body) + chance.Intn(3*zerosBetween)
		}
		joined, err := joinPieces(module(pieces))
		require.NoError(t, err)
		again := piecesOf(t, joined)
		assert.Less(t, len(again), len(pieces))
		assert.Equal(t, memory(t, pieces), memory(t, again))
		assert.Equal(t, module(pieces)[:13], joined[:13], "what is not data stays")
	}
}

func TestPiecesFarApartStay(t *testing.T) {
	pieces := []piece{{64, []byte("a")}, {65 + zerosBetween, []byte("b")}, {67 + 2*zerosBetween, []byte("c")}, {8191, []byte("d")}, {8192, []byte("e")}}
	joined, err := joinPieces(module(pieces))
	require.NoError(t, err)
	again := piecesOf(t, joined)
	require.Len(t, again, 3)
	assert.Equal(t, "a"+string(make([]byte, zerosBetween))+"b", string(again[0].body))
	assert.Equal(t, piece{8191, []byte("de")}, again[2])
}

// What Go's linker writes is read, and nothing but its data changes.
func TestLinkedProgramIsJoined(t *testing.T) {
	dir, cacheDir := smallModule(t), t.TempDir()
	plain, err := WebAssembly(context.Background(), Options{Dir: dir, Package: ".", Cache: cacheDir, Plain: true})
	require.NoError(t, err)
	joined, err := joinPieces(plain.Wasm)
	require.NoError(t, err)
	before, after := piecesOf(t, plain.Wasm), piecesOf(t, joined)
	assert.Less(t, 10*len(after), len(before))
	assert.True(t, bytes.Equal(memory(t, before), memory(t, after)))

	small, err := WebAssembly(context.Background(), Options{Dir: dir, Package: ".", Cache: cacheDir})
	require.NoError(t, err)
	assert.Less(t, len(piecesOf(t, small.Wasm)), len(before))
	assert.NotEqual(t, plain.Key, small.Key)
}

func TestOtherLayoutsAreRefused(t *testing.T) {
	good := module([]piece{{1, []byte("a")}, {9, []byte("b")}})
	for name, wasm := range map[string][]byte{
		"empty":               nil,
		"no WebAssembly":      []byte("#!/bin/sh\n"),
		"cut short":           good[:len(good)-1],
		"passive data":        bytes.Replace(good, []byte{atPlace, i32Const, 1}, []byte{1, i32Const, 1}, 1),
		"placed by a global":  bytes.Replace(good, []byte{atPlace, i32Const, 1}, []byte{atPlace, 0x23, 1}, 1),
		"below nothing":       bytes.Replace(good, []byte{atPlace, i32Const, 1}, []byte{atPlace, i32Const, 0x7f}, 1),
		"counts its data":     append(bytes.Clone(good), dataCountSection, 1, 2),
		"more pieces claimed": bytes.Replace(good, []byte{dataSection, 13, 2}, []byte{dataSection, 13, 3}, 1),
	} {
		t.Run(name, func(t *testing.T) {
			_, err := joinPieces(wasm)
			assert.ErrorIs(t, err, errNotLinked)
		})
	}
	_, err := joinPieces(good)
	assert.NoError(t, err)
}
