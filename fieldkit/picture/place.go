package picture

import (
	"bytes"
	"encoding/binary"
	"math"
	"slices"
)

// Place is a position on the globe, WGS 84 in millionths of a degree, north and east
// positive.
type Place struct{ Lat, Lon int64 }

// Tags of CIPA DC-008-2019, tables 4 and 15.
const (
	tagGPS    = 0x8825 // in the first directory: where the directory of the position is
	gpsLatRef = 1      // "N" or "S"
	gpsLat    = 2      // degrees, minutes, seconds
	gpsLonRef = 3      // "E" or "W"
	gpsLon    = 4

	typeByte, typeASCII, typeLong, typeRational = 1, 2, 4, 5
)

var exifHead = []byte("Exif\x00\x00")

// PlaceOf reads where a camera says it stood when it took a JPEG. known is false if it
// does not say, or not in a way that makes sense.
func PlaceOf(jpeg []byte) (at Place, known bool) {
	_ = walk(jpeg, func(s segment) bool { // a file cut short may still have begun with it
		if s.marker == app1 && bytes.HasPrefix(s.body, exifHead) {
			at, known = placeIn(s.body[len(exifHead):])
		}
		return s.marker != startOfScan && !known
	})
	return at, known
}

// tiff is the block that Exif keeps its directories in.
type tiff struct {
	data  []byte
	order binary.ByteOrder
}

func placeIn(data []byte) (at Place, known bool) {
	t := tiff{data: data}
	switch {
	case bytes.HasPrefix(data, []byte("II*\x00")):
		t.order = binary.LittleEndian
	case bytes.HasPrefix(data, []byte("MM\x00*")):
		t.order = binary.BigEndian
	default:
		return Place{}, false
	}
	first, ok := t.long(4)
	if !ok {
		return Place{}, false
	}
	to, ok := t.entry(first, tagGPS, typeLong, 1)
	if !ok {
		return Place{}, false
	}
	gps, ok := t.long(to)
	if !ok {
		return Place{}, false
	}
	lat, latOK := t.degrees(gps, gpsLat, gpsLatRef, "NS", 90)
	lon, lonOK := t.degrees(gps, gpsLon, gpsLonRef, "EW", 180)
	if !latOK || !lonOK {
		return Place{}, false
	}
	return Place{lat, lon}, true
}

func (t tiff) long(at int) (int, bool) {
	if at < 0 || at+4 > len(t.data) {
		return 0, false
	}
	n := t.order.Uint32(t.data[at:])
	return int(n), n < 1<<30
}

// entry finds a tag in the directory at dir and gives where its value stands.
func (t tiff) entry(dir, tag, typ, count int) (at int, ok bool) {
	if dir < 0 || dir+2 > len(t.data) {
		return 0, false
	}
	size := map[int]int{typeByte: 1, typeASCII: 1, typeLong: 4, typeRational: 8}[typ] * count
	for i := range int(t.order.Uint16(t.data[dir:])) {
		e := dir + 2 + 12*i
		if e+12 > len(t.data) {
			return 0, false
		}
		if int(t.order.Uint16(t.data[e:])) != tag {
			continue
		}
		if n, _ := t.long(e + 4); int(t.order.Uint16(t.data[e+2:])) != typ || n < count {
			return 0, false
		}
		if at = e + 8; size > 4 {
			if at, ok = t.long(e + 8); !ok {
				return 0, false
			}
		}
		return at, at+size <= len(t.data)
	}
	return 0, false
}

// degrees reads degrees, minutes and seconds with their side, at most most degrees.
func (t tiff) degrees(dir, tag, ref int, sides string, most float64) (int64, bool) {
	at, ok := t.entry(dir, tag, typeRational, 3)
	side, known := t.entry(dir, ref, typeASCII, 1)
	if !ok || !known || !bytes.ContainsRune([]byte(sides), rune(t.data[side])) {
		return 0, false
	}
	sum := 0.0
	for i, part := range []float64{1, 60, 3600} {
		above, below := t.order.Uint32(t.data[at+8*i:]), t.order.Uint32(t.data[at+8*i+4:])
		if below == 0 {
			return 0, false
		}
		sum += float64(above) / float64(below) / part
	}
	if sum > most {
		return 0, false
	}
	if t.data[side] == sides[1] {
		sum = -sum
	}
	return int64(math.Round(sum * 1e6)), true
}

// WithPlace writes a position into a bare JPEG, as an Exif block that holds nothing
// else. Error of kind BadInput if it is no JPEG.
func WithPlace(jpeg []byte, at Place) ([]byte, error) {
	if err := walk(jpeg, func(segment) bool { return true }); err != nil {
		return nil, err
	}
	be := binary.BigEndian
	block := slices.Concat(exifHead, []byte("MM\x00*\x00\x00\x00\x08"))
	entry := func(tag, typ, count int, value []byte) {
		block = be.AppendUint16(be.AppendUint16(block, uint16(tag)), uint16(typ))
		block = append(be.AppendUint32(block, uint32(count)), value...)
	}
	// The first directory is 18 bytes long, the second 5 entries of 12 and 6 more;
	// behind it stand the two positions of 24 bytes.
	const gps, behind = 8 + 18, 8 + 18 + 66
	block = be.AppendUint16(block, 1)
	entry(tagGPS, typeLong, 1, be.AppendUint32(nil, gps))
	block = be.AppendUint16(be.AppendUint32(block, 0), 5)
	entry(0, typeByte, 4, []byte{2, 3, 0, 0}) // version of the directory
	entry(gpsLatRef, typeASCII, 2, []byte{side(at.Lat, "NS"), 0, 0, 0})
	entry(gpsLat, typeRational, 3, be.AppendUint32(nil, behind))
	entry(gpsLonRef, typeASCII, 2, []byte{side(at.Lon, "EW"), 0, 0, 0})
	entry(gpsLon, typeRational, 3, be.AppendUint32(nil, behind+24))
	block = be.AppendUint32(block, 0)
	for _, micro := range []int64{at.Lat, at.Lon} {
		// A millionth of a degree is 36 ten-thousandths of a second, exactly.
		units := uint64(max(micro, -micro)) * 36
		for _, part := range []struct{ of, below uint64 }{{36_000_000, 1}, {600_000, 1}, {1, 10_000}} {
			block = be.AppendUint32(be.AppendUint32(block, uint32(units/part.of)), uint32(part.below))
			units %= part.of
		}
	}
	head := be.AppendUint16([]byte{0xFF, app1}, uint16(len(block)+2))
	return slices.Insert(bytes.Clone(jpeg), 2, append(head, block...)...), nil
}

func side(micro int64, sides string) byte {
	if micro < 0 {
		return sides[1]
	}
	return sides[0]
}
