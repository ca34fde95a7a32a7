package journal

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// Blob is a photo's bytes, known by their hash.
type Blob struct {
	Hash string // SHA-256 of Data in lower-case hex; records refer to photos by it
	Type string // MIME type: "image/jpeg"
	Data []byte
}

// NewBlob makes the blob of some bytes.
func NewBlob(mime string, data []byte) Blob {
	return Blob{Hash: BlobHash(data), Type: mime, Data: data}
}

// BlobHash is the name bytes are kept under.
func BlobHash(data []byte) string {
	return hexSum(data)
}

// Whole reports whether the bytes are those of the hash.
func (b Blob) Whole() bool { return b.Hash == BlobHash(b.Data) }

// allWhole refuses blobs whose bytes are not those of their hash.
func allWhole(blobs []Blob) error {
	for _, b := range blobs {
		if !b.Whole() {
			return &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("photo %.12q does not match its checksum", b.Hash), Do: "take it once more"}
		}
	}
	return nil
}
