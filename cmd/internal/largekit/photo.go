package largekit

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"slices"
	"sync"

	"trailfieldkit/fieldkit/journal"
)

// picture is noise: as many bytes as a photo of a part, about 150 kB.
var picture = sync.OnceValue(func() []byte {
	rnd := rand.New(rand.NewPCG(7, 7))
	img := image.NewGray(image.Rect(0, 0, 480, 360))
	for i := range img.Pix {
		img.Pix[i] = byte(rnd.Uint32())
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 88}); err != nil {
		panic(err) // a picture in memory always encodes
	}
	return b.Bytes()
})

// Photo is the photo of that number: the same picture with a remark that no other
// has, so that its hash is its own.
func Photo(i int) journal.Blob {
	remark := binary.BigEndian.AppendUint32([]byte{0xff, 0xfe, 0, 6}, uint32(i))
	return journal.NewBlob("image/jpeg", slices.Insert(slices.Clone(picture()), 2, remark...))
}
