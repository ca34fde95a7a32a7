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
	// Read gives the bytes of a photo that lies elsewhere, in a backup; Data is nil then.
	// So a thousand photos can be taken over one by one.
	Read func() ([]byte, error) `json:"-"`
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

// Loaded returns the blob with its bytes. Stores call it before they keep one that lies
// elsewhere. Errors: what Read gave; kind BadInput if the bytes are not those of the
// hash.
func (b Blob) Loaded() (Blob, error) {
	if b.Read == nil {
		return b, nil
	}
	data, err := b.Read()
	if err != nil {
		return Blob{}, err
	}
	b.Data, b.Read = data, nil
	if !b.Whole() {
		return Blob{}, &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("photo %.12q is not what it was when the file was checked", b.Hash),
			Do: "choose the file once more"}
	}
	return b, nil
}

// allWhole refuses blobs whose bytes are not those of their hash. Those that lie
// elsewhere are checked when they are loaded.
func allWhole(blobs []Blob) error {
	for _, b := range blobs {
		if b.Read == nil && !b.Whole() {
			return &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("photo %.12q does not match its checksum", b.Hash), Do: "take it once more"}
		}
	}
	return nil
}
