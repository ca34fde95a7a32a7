package picture

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"trailfieldkit/fieldkit"
)

// Markers of ITU-T T.81, table B.1.
const (
	startOfImage = 0xD8
	endOfImage   = 0xD9
	startOfScan  = 0xDA
	app0         = 0xE0
	app1         = 0xE1
	app14        = 0xEE
	app15        = 0xEF
	comment      = 0xFE
)

// MaxSegments is how many segments are read of one file; a photo of a camera has a few
// dozen.
const MaxSegments = 4096

// segment is one marker with what belongs to it, as it stands in the file.
type segment struct {
	marker byte
	whole  []byte // with marker and length, and the scan that follows a start of scan
	body   []byte // without them
}

// Bare returns a JPEG that shows the same picture and holds nothing else: no Exif, no
// XMP, no colour profile, no remark, no second picture behind the end. What a decoder
// needs stays, among it the marks of JFIF and Adobe that say how colours are kept.
// Error of kind BadInput if it is no JPEG or is cut short.
func Bare(jpeg []byte) ([]byte, error) {
	bare := append(make([]byte, 0, len(jpeg)), 0xFF, startOfImage)
	err := walk(jpeg, func(s segment) bool {
		switch {
		case s.marker == app0 && bytes.HasPrefix(s.body, []byte("JFIF\x00")) && len(s.body) >= 14:
			head := bytes.Clone(s.body[:14])
			head[12], head[13] = 0, 0 // its small picture is left out
			bare = append(append(bare, 0xFF, app0, 0, 16), head...)
		case s.marker == app14 && bytes.HasPrefix(s.body, []byte("Adobe")):
			bare = append(bare, s.whole...)
		case s.marker >= app0 && s.marker <= app15 || s.marker == comment:
		default:
			bare = append(bare, s.whole...)
		}
		return true
	})
	if err != nil {
		return nil, err
	}
	return append(bare, 0xFF, endOfImage), nil
}

// walk visits the segments between start and end of image until visit returns false.
func walk(jpeg []byte, visit func(segment) bool) error {
	if len(jpeg) < 4 || jpeg[0] != 0xFF || jpeg[1] != startOfImage {
		return unreadable("it is no JPEG")
	}
	at := 2
	for range MaxSegments {
		for at+1 < len(jpeg) && jpeg[at] == 0xFF && jpeg[at+1] == 0xFF {
			at++ // fill bytes
		}
		if at+1 >= len(jpeg) || jpeg[at] != 0xFF {
			return unreadable(fmt.Sprintf("it is cut short or damaged at byte %d", at))
		}
		marker := jpeg[at+1]
		if marker == endOfImage {
			return nil
		}
		if marker < 0xC0 || marker >= 0xD0 && marker <= startOfImage { // these have no length and stand in no file here
			return unreadable(fmt.Sprintf("it is damaged at byte %d", at))
		}
		if at+4 > len(jpeg) {
			return unreadable("it is cut short")
		}
		length := int(binary.BigEndian.Uint16(jpeg[at+2:]))
		end := at + 2 + length
		if length < 2 || end > len(jpeg) {
			return unreadable("it is cut short")
		}
		s := segment{marker: marker, body: jpeg[at+4 : end]}
		if marker == startOfScan {
			end = scanEnd(jpeg, end)
		}
		s.whole = jpeg[at:end]
		if !visit(s) {
			return nil
		}
		at = end
	}
	return &fieldkit.Error{Kind: fieldkit.TooBig, What: fmt.Sprintf("the picture is made of more than %d pieces", MaxSegments), Do: "take a new photo"}
}

// scanEnd finds the next marker after the data of a scan; a byte 0xFF in the data is
// followed by a 0 or is a restart marker.
func scanEnd(jpeg []byte, at int) int {
	for at < len(jpeg) {
		i := bytes.IndexByte(jpeg[at:], 0xFF)
		if i < 0 || at+i+1 >= len(jpeg) {
			return len(jpeg)
		}
		at += i
		if next := jpeg[at+1]; next != 0 && next != 0xFF && (next < 0xD0 || next > 0xD7) {
			return at
		} else if next == 0xFF {
			at++
		} else {
			at += 2
		}
	}
	return at
}

func unreadable(what string) *fieldkit.Error {
	return &fieldkit.Error{Kind: fieldkit.BadInput, What: "this picture cannot be read: " + what, Do: "choose a JPEG or PNG, or take a new photo"}
}
