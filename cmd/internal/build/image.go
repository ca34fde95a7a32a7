package build

import (
	"bytes"
	"encoding/binary"
	"errors"
	"os"
)

// The linker writes what is in memory at the start in as many as 100 000 pieces, to
// leave out runs of zeros of eight bytes and more. Such runs cost next to nothing
// once the file is compressed, the pieces' headers do: joined, the download is a
// twentieth smaller, and the browser has fewer pieces to copy.

// zerosBetween is the longest run of zeros written out to join two pieces.
const zerosBetween = 64

// Sections, as numbered by the WebAssembly Core Specification, Binary Format, 5.5.2.
const (
	dataSection      = 11
	dataCountSection = 12
)

var errNotLinked = errors.New("the compiled program is not laid out as Go's linker does it")

// piece is a part of memory with what is in it.
type piece struct {
	at   int
	body []byte
}

// joinFile joins the pieces of a file. One laid out in another way is left as it is.
func joinFile(name string) error {
	wasm, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	joined, err := joinPieces(wasm)
	if err != nil {
		return nil
	}
	return os.WriteFile(name, joined, 0o644)
}

// joinPieces gives the same program with its data in fewer pieces. The error is
// errNotLinked for what Go's linker does not write.
func joinPieces(wasm []byte) ([]byte, error) {
	const header = 8
	if len(wasm) < header || string(wasm[:4]) != "\x00asm" {
		return nil, errNotLinked
	}
	out := bytes.Clone(wasm[:header])
	for rest := wasm[header:]; len(rest) > 0; {
		kind := rest[0]
		size, used := binary.Uvarint(rest[1:])
		if used <= 0 || size > uint64(len(rest)-1-used) || kind == dataCountSection {
			return nil, errNotLinked
		}
		body := rest[1+used:][:size]
		rest = rest[1+used:][size:]
		if kind == dataSection {
			pieces, err := readPieces(body)
			if err != nil {
				return nil, err
			}
			body = writePieces(join(pieces))
		}
		out = append(out, kind)
		out = binary.AppendUvarint(out, uint64(len(body)))
		out = append(out, body...)
	}
	return out, nil
}

// join brings together pieces that lie closely one after the other.
func join(pieces []piece) (joined []piece) {
	for _, p := range pieces {
		if n := len(joined); n > 0 {
			last := &joined[n-1]
			zeros := p.at - last.at - len(last.body)
			if zeros >= 0 && zeros <= zerosBetween {
				last.body = append(append(last.body, make([]byte, zeros)...), p.body...)
				continue
			}
		}
		joined = append(joined, piece{p.at, bytes.Clone(p.body)})
	}
	return joined
}

// A piece is a 0, its place as the expression "i32.const place, end", its length and
// its bytes (5.5.14).
const (
	atPlace  = 0x00
	i32Const = 0x41
	end      = 0x0b
)

func readPieces(section []byte) ([]piece, error) {
	count, used := binary.Uvarint(section)
	if used <= 0 {
		return nil, errNotLinked
	}
	rest := section[used:]
	var pieces []piece
	for range count {
		if len(rest) < 2 || rest[0] != atPlace || rest[1] != i32Const {
			return nil, errNotLinked
		}
		at, used := signed(rest[2:])
		rest = rest[min(2+used, len(rest)):]
		if used == 0 || at < 0 || len(rest) == 0 || rest[0] != end {
			return nil, errNotLinked
		}
		size, used := binary.Uvarint(rest[1:])
		if used <= 0 || size > uint64(len(rest)-1-used) {
			return nil, errNotLinked
		}
		pieces = append(pieces, piece{at, rest[1+used:][:size]})
		rest = rest[1+used:][size:]
	}
	return pieces, nil
}

func writePieces(pieces []piece) []byte {
	section := binary.AppendUvarint(nil, uint64(len(pieces)))
	for _, p := range pieces {
		section = append(section, atPlace, i32Const)
		section = appendSigned(section, p.at)
		section = append(section, end)
		section = binary.AppendUvarint(section, uint64(len(p.body)))
		section = append(section, p.body...)
	}
	return section
}

// signed reads a signed LEB128 number of 32 bits; used is 0 if there is none.
func signed(b []byte) (n, used int) {
	for i := range min(len(b), 5) {
		n |= int(b[i]&0x7f) << (7 * i)
		if b[i]&0x80 == 0 {
			if b[i]&0x40 != 0 {
				n -= 1 << (7 * (i + 1))
			}
			return n, i + 1
		}
	}
	return 0, 0
}

// appendSigned writes a number of 0 or more as signed LEB128.
func appendSigned(b []byte, n int) []byte {
	for ; n >= 0x40; n >>= 7 {
		b = append(b, byte(n&0x7f)|0x80)
	}
	return append(b, byte(n))
}
