package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// small is a JPEG without anything besides the picture.
func small(t testing.TB) []byte {
	img := image.NewRGBA(image.Rect(0, 0, 40, 30))
	for i := range 40 * 30 {
		img.Set(i%40, i/40, color.RGBA{uint8(i), uint8(i / 3), uint8(7 * i), 255})
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, nil))
	return b.Bytes()
}

// block is one segment.
func block(marker byte, body string) []byte {
	return append(binary.BigEndian.AppendUint16([]byte{0xFF, marker}, uint16(len(body)+2)), body...)
}

// with puts segments behind the start of an image.
func with(jpeg []byte, blocks ...[]byte) []byte {
	return slices.Insert(slices.Clone(jpeg), 2, slices.Concat(blocks...)...)
}

// camera is an Exif block of CIPA DC-008 in little-endian order, written by hand: maker,
// model, and 38° 30′ 44.42″ N, 111° 14′ 4.44″ W.
func camera() []byte {
	le := binary.LittleEndian
	b := []byte("Exif\x00\x00II*\x00\x08\x00\x00\x00")
	entry := func(tag, typ, count uint16, value uint32) {
		b = le.AppendUint32(le.AppendUint32(le.AppendUint16(le.AppendUint16(b, tag), typ), uint32(count)), value)
	}
	b = le.AppendUint16(b, 3)
	entry(0x010F, 2, 8, 140)        // maker
	entry(0x0112, 3, 1, 6)          // orientation
	entry(0x8825, 4, 1, 8+2+3*12+4) // 50
	b = le.AppendUint32(b, 0)       //
	b = le.AppendUint16(b, 4)       // at 50
	entry(1, 2, 2, uint32('N'))     //
	entry(2, 5, 3, 50+2+4*12+4)     // 104
	entry(3, 2, 2, uint32('W'))     //
	entry(4, 5, 3, 50+2+4*12+4+24)  // 128
	b = le.AppendUint32(b, 0)       //
	for _, n := range []uint32{38, 1, 30, 1, 4442, 100, 111, 1, 14, 1, 444, 100} {
		b = le.AppendUint32(b, n)
	}
	return block(app1, string(append(b, "Aperture Phones"...)))
}

func TestBareTellsNothing(t *testing.T) {
	plain := small(t)
	traces := []string{"Exif", "Aperture", "http://ns.adobe.com", "ICC_PROFILE", "Photoshop", "my garden", "JFXX", "MPF", "trailer"}
	said := with(plain,
		block(app0, "JFIF\x00\x01\x02\x00\x00\x48\x00\x48\x01\x01abc"), block(app0, "JFXX\x00\x10"), camera(), block(app1, "http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta/>"),
		block(0xE2, "ICC_PROFILE\x00\x01\x01Aperture"), block(0xE2, "MPF\x00"), block(0xED, "Photoshop 3.0\x00"), block(comment, "my garden"))
	said = append(said, "trailer: a second picture with its own Exif"...)
	bare, err := Bare(said)
	require.NoError(t, err)
	for _, trace := range traces {
		assert.NotContains(t, string(bare), trace)
	}
	require.NoError(t, walk(bare, func(s segment) bool {
		assert.NotContains(t, []byte{app1, 0xE2, 0xED, comment}, s.marker)
		return true
	}))
	was, err := jpeg.Decode(bytes.NewReader(plain))
	require.NoError(t, err)
	is, err := jpeg.Decode(bytes.NewReader(bare))
	require.NoError(t, err)
	assert.Equal(t, was, is, "the picture is the same")
	again, err := Bare(bare)
	require.NoError(t, err)
	assert.Equal(t, bare, again)
}

func TestPlaceOfCamera(t *testing.T) {
	at, known := PlaceOf(with(small(t), camera()))
	require.True(t, known)
	assert.Equal(t, Place{38_512_339, -111_234_567}, at)
	_, known = PlaceOf(small(t))
	assert.False(t, known)
}

func TestPlaceComesBack(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 3))
	plain := small(t)
	places := []Place{{0, 0}, {90_000_000, 180_000_000}, {-90_000_000, -180_000_000}, {1, -1}, {59_999_999, 59_999_999}}
	for range 500 {
		places = append(places, Place{rnd.Int64N(180_000_001) - 90_000_000, rnd.Int64N(360_000_001) - 180_000_000})
	}
	for _, want := range places {
		marked, err := WithPlace(plain, want)
		require.NoError(t, err)
		at, known := PlaceOf(marked)
		require.True(t, known)
		require.Equal(t, want, at)
		bare, err := Bare(marked)
		require.NoError(t, err)
		_, known = PlaceOf(bare)
		require.False(t, known)
	}
	_, err := jpeg.Decode(bytes.NewReader(with(plain, camera())))
	require.NoError(t, err)
}

func TestRefused(t *testing.T) {
	plain := small(t)
	for name, bad := range map[string][]byte{
		"nothing": nil, "PNG": []byte("\x89PNG\r\n\x1a\n0000"), "cut in the head": plain[:30], "cut in the picture": plain[:len(plain)-2],
		"length of nothing": with(plain, []byte{0xFF, app1, 0, 1}), "many pieces": with(plain, bytes.Repeat(block(comment, ""), MaxSegments)),
		"a marker that stands nowhere": with(plain, []byte{0xFF, 0xD0}),
	} {
		_, err := Bare(bad)
		assert.ErrorContains(t, err, "picture", name)
		_, err = WithPlace(bad, Place{})
		assert.Error(t, err, name)
	}
	for name, spoil := range map[string]func(b []byte){
		"divided by nothing": func(b []byte) { copy(b[10+104+4:], []byte{0, 0, 0, 0}) },
		"beyond the pole":    func(b []byte) { copy(b[10+104:], []byte{200, 0, 0, 0}) },
		"side not known":     func(b []byte) { b[10+52+8] = 'X' },
		"directory outside":  func(b []byte) { copy(b[10+10+2*12+8:], []byte{255, 255, 255, 0}) },
		"other byte order":   func(b []byte) { copy(b[10:], "MM") },
	} {
		b := camera()
		spoil(b)
		_, known := PlaceOf(with(plain, b))
		assert.False(t, known, name)
	}
}

// FuzzBare holds that what is bare stays so and names no place, and that reading never
// fails in another way than with an error.
func FuzzBare(f *testing.F) {
	plain := small(f)
	f.Add(plain)
	f.Add(with(plain, camera()))
	f.Add(with(plain, block(comment, "x"), block(app14, "Adobe\x00\x64")))
	f.Add(plain[:len(plain)/2])
	f.Add([]byte{0xFF, 0xD8, 0xFF, 0xD9})
	f.Fuzz(func(t *testing.T, file []byte) {
		at, known := PlaceOf(file)
		if known && (at.Lat < -90_000_000 || at.Lat > 90_000_000 || at.Lon < -180_000_000 || at.Lon > 180_000_000) {
			t.Fatal(at)
		}
		bare, err := Bare(file)
		if err != nil {
			require.Nil(t, bare)
			return
		}
		_, known = PlaceOf(bare)
		require.False(t, known)
		again, err := Bare(bare)
		require.NoError(t, err)
		require.Equal(t, bare, again)
	})
}
