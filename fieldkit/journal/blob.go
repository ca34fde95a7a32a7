package journal

import (
	"crypto/sha256"
	"encoding/hex"
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
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// check reports a blob whose bytes are not those of its hash.
func (b Blob) check() error {
	if b.Hash != BlobHash(b.Data) {
		return &fieldkit.Error{Kind: fieldkit.Storage, What: fmt.Sprintf("photo %.12s is damaged", b.Hash), Do: "restore it from a backup"}
	}
	return nil
}
