//go:build browser

package browsertest

import (
	"bytes"
	"compress/zlib"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// told is what the pictures below say besides their picture.
const told = "Inverted Pines, 38.5 N 111.2 W"

// pngTelling is a PNG with what ISO/IEC 15948 and its extensions have for telling:
// tEXt, iTXt with XMP, eXIf.
func pngTelling(t *testing.T) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 40, 30))
	for i := range 40 * 30 {
		img.Set(i%40, i/40, color.RGBA{uint8(i), uint8(i / 3), 90, 255})
	}
	var plain bytes.Buffer
	require.NoError(t, png.Encode(&plain, img))
	const afterHead = 8 + 12 + 13
	return slices.Insert(plain.Bytes(), afterHead, slices.Concat(
		pngChunk("tEXt", "Comment\x00"+told),
		pngChunk("iTXt", "XML:com.adobe.xmp\x00\x00\x00\x00\x00<x:xmpmeta>"+told+"</x:xmpmeta>"),
		pngChunk("eXIf", "II*\x00\x08\x00\x00\x00\x00\x00"+told))...)
}

func pngChunk(name, body string) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	b = append(b, name+body...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// pngSwelling is a black PNG of a tenth of a megabyte that takes gigabytes to show.
func pngSwelling(t *testing.T) []byte {
	t.Helper()
	const side = 30_000
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	for range side {
		_, err := w.Write(make([]byte, 1+side/8)) // a filter and a bit for each point
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, side), side)
	return slices.Concat([]byte("\x89PNG\r\n\x1a\n"), pngChunk("IHDR", string(head)+"\x01\x00\x00\x00\x00"), pngChunk("IDAT", packed.String()), pngChunk("IEND", ""))
}

// webpTelling is a WebP (RFC 9649) in the extended form, with chunks EXIF and XMP.
func webpTelling(t *testing.T) []byte {
	t.Helper()
	plain, err := base64.StdEncoding.DecodeString("UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA==") // one point, lossless
	require.NoError(t, err)
	chunk := func(name, body string) []byte {
		b := append(binary.LittleEndian.AppendUint32([]byte(name), uint32(len(body))), body...)
		return append(b, make([]byte, len(body)%2)...)
	}
	body := slices.Concat([]byte("WEBP"), chunk("VP8X", "\x0c\x00\x00\x00\x00\x00\x00\x00\x00\x00"), plain[12:], chunk("EXIF", "II*\x00\x08\x00\x00\x00\x00\x00"+told), chunk("XMP ", told))
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

// Whatever kind of picture is chosen: what is kept is a JPEG that tells nothing besides
// its picture. What the browser cannot read as a picture is refused with words.
func TestPhotosOfOtherKinds(t *testing.T) {
	const form = "/log/failure?position=hobnail-front-brake-pads"
	folder := t.TempDir()
	choose := func(v *traveller, name string, content []byte) {
		t.Helper()
		file := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(file, content, 0o644))
		v.Upload("css:main input[type=file]", file)
	}
	v := withDemo(t, "/log")
	for name, content := range map[string][]byte{
		"IMG_1.HEIC":  append([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), bytes.Repeat([]byte("x"), 2000)...), // ISO/IEC 23008-12
		"drawing.svg": []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9" onload="globalThis.ran=1"><script>globalThis.ran=1</script></svg>`),
		"page.jpg":    []byte("<!doctype html><script>globalThis.ran=1</script>"),
		"cut.png":     pngTelling(t)[:60],
		"nothing.jpg": nil,
		"black.png":   pngSwelling(t),
	} {
		v.Go(form)
		v.Fill("What broke", "pads, "+name)
		choose(v, name, content)
		v.See("This picture cannot be read")
		assert.Equal(t, "pads, "+name, v.Value("What broke"))
		assert.False(t, ask[bool](v.phone, `Boolean(globalThis.ran || document.querySelector('.photos img'))`), name)
		v.Go("/log")
		v.SeeNot("This picture cannot be read")
	}
	for name, content := range map[string][]byte{"IMG_2.PNG": pngTelling(t), "IMG_3.WEBP": webpTelling(t)} {
		require.True(t, bytes.Contains(content, []byte(told)))
		v := withDemo(t, form)
		v.Fill("What broke", "pads")
		choose(v, name, content)
		v.WaitFor("the photo "+name, `document.querySelector('.photos img')?.naturalWidth > 0`)
		v.Tap("button:Save")
		v.At("/log")
		kept := v.photoInBackup()
		shape, kind, err := image.DecodeConfig(bytes.NewReader(kept))
		require.NoError(t, err, name)
		assert.Equal(t, "jpeg", kind)
		assert.Equal(t, map[string]int{"IMG_2.PNG": 40, "IMG_3.WEBP": 1}[name], shape.Width)
		for _, trace := range []string{"Inverted", "Exif", "xmpmeta", "111.2"} {
			assert.False(t, strings.Contains(string(kept), trace), "%s still says %q", name, trace)
		}
	}
}
