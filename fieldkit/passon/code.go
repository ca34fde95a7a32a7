package passon

import (
	"bytes"
	"compress/flate"
	"encoding/base32"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// A code is base32 (RFC 4648, capitals, no padding) of: one byte version; CRC-32
// (IEEE) of the text, 4 bytes, big end first; the text, deflated (RFC 1951) with the
// version's dictionary. The text is a kit file without white space.
const codeVersion = 1

const (
	// MaxCode is the longest code read, in characters.
	MaxCode = 16_000
	maxText = 128 << 10 // bytes unpacked
	maxHeld = 200       // records
)

var coding = base32.StdEncoding.WithPadding(base32.NoPadding)

// Encode packs a bundle. IDs are shortened: the other kit gives its own. Error of kind
// TooBig if it is more than Decode takes.
func Encode(b Bundle) (string, error) {
	text, err := b.text()
	if err != nil {
		return "", err
	}
	if len(text) > maxText || b.held() > maxHeld {
		return "", errTooMuch
	}
	out := binary.BigEndian.AppendUint32([]byte{codeVersion}, crc32.ChecksumIEEE(text))
	var packed bytes.Buffer
	w, err := flate.NewWriterDict(&packed, flate.BestCompression, []byte(dictionary))
	if err != nil {
		return "", err
	}
	if _, err := w.Write(text); err != nil {
		return "", err
	}
	if err := w.Close(); err != nil {
		return "", err
	}
	code := coding.EncodeToString(append(out, packed.Bytes()...))
	if len(code) > MaxCode {
		return "", errTooMuch
	}
	return code, nil
}

var errTooMuch = &fieldkit.Error{Kind: fieldkit.TooBig, What: "this is too much for a code", Do: "make a backup under Kit and hand that over; the rig can be added from it"}

// held counts the records.
func (b Bundle) held() (n int) {
	for _, c := range fieldkit.Collections {
		n += c.Len(b.Kit)
	}
	return n
}

// text is the bundle as a compact kit file with short IDs.
func (b Bundle) text() ([]byte, error) {
	short := map[string]string{}
	k := renamed(b.Kit, func(collection, old string) string {
		key := collection + " " + old
		if short[key] == "" {
			short[key] = fmt.Sprint(len(short) + 1)
		}
		return short[key]
	})
	k.ID = "p"
	if problems := kitfile.Check(k); len(problems) > 0 {
		return nil, problems[0].Error("")
	}
	return kitfile.SaveCompact(k), nil
}

// Decode unpacks a code and checks it like a kit file. Error of kind BadInput, TooBig
// or TooNew, in words for the person who opened it.
func Decode(code string) (Bundle, error) {
	code = strings.ToUpper(strings.TrimSpace(code))
	if len(code) > MaxCode {
		return Bundle{}, &fieldkit.Error{Kind: fieldkit.TooBig, What: "the code is too long to be one of this app", Do: "ask for it once more"}
	}
	raw, err := coding.DecodeString(code)
	if err != nil || len(raw) < 6 {
		return Bundle{}, cutShort("it is not a code of this app, or a part of it is missing", err)
	}
	if raw[0] != codeVersion {
		return Bundle{}, &fieldkit.Error{Kind: fieldkit.TooNew, What: "the code was made by a newer version of the app", Do: "update the app where there is signal, then open it again"}
	}
	r := flate.NewReaderDict(bytes.NewReader(raw[5:]), []byte(dictionary))
	text, err := io.ReadAll(io.LimitReader(r, maxText+1))
	if err != nil {
		return Bundle{}, cutShort("the code is damaged", err)
	}
	if len(text) > maxText {
		return Bundle{}, &fieldkit.Error{Kind: fieldkit.TooBig, What: "the code holds more than a few records", Do: "ask for a backup file instead"}
	}
	if crc32.ChecksumIEEE(text) != binary.BigEndian.Uint32(raw[1:5]) {
		return Bundle{}, cutShort("the code is damaged: its checksum does not match", nil)
	}
	k, err := kitfile.Load("the code", text)
	if err != nil {
		return Bundle{}, err
	}
	b := Bundle{k}
	if err := b.check(); err != nil {
		return Bundle{}, err
	}
	return b, nil
}

// check refuses what a code does not pass on.
func (b Bundle) check() error {
	for _, c := range fieldkit.Collections {
		switch c.Name {
		case "rigs", "systems", "positions", "donors", "parts", "links":
		default:
			if c.Len(b.Kit) > 0 {
				return cutShort("the code holds "+c.Name+", which are not passed on like this", nil)
			}
		}
	}
	if b.held() > maxHeld || b.Kit.Positions.Len() > 1 {
		return &fieldkit.Error{Kind: fieldkit.TooBig, What: "the code holds more than one thing", Do: "ask for a backup file instead"}
	}
	if b.Kind() == Nothing {
		return cutShort("the code holds nothing to add", nil)
	}
	return nil
}

func cutShort(what string, cause error) *fieldkit.Error {
	return &fieldkit.Error{Kind: fieldkit.BadInput, What: what, Do: "scan it once more, or ask for it as a file; nothing was added", Cause: cause}
}

// Code finds the code in what a person opens: a link, a file with a link in it, or
// the code alone.
func Code(text string) string {
	if len(text) > 4*MaxCode {
		text = text[:4*MaxCode]
	}
	if _, after, ok := strings.Cut(text, "#"); ok {
		text = after
	}
	text = strings.TrimSpace(text)
	if end := strings.IndexAny(text, " \t\r\n\"'<>&"); end >= 0 {
		text = text[:end]
	}
	return text
}
