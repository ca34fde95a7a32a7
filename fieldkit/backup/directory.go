package backup

import (
	"archive/zip"
	"fmt"
	"io"
	"math"

	"trailfieldkit/fieldkit"
)

// What a directory may take (PKWARE APPNOTE 4.3.12 and 4.3.16): 46 bytes a file, its name,
// and what other programs note beside it; and its end with a remark, which is looked for
// from behind.
const (
	directoryOfFile = 160
	directoryEnd    = 128 << 10
)

// openZip opens an archive. No more of its directory is read than as many files take as
// an archive may hold: what the directory says of its own length may be wrong.
func openZip(file *io.SectionReader, limits Limits) (*zip.Reader, error) {
	r := &rationed{file: file, left: int64(limits.Files)*directoryOfFile + directoryEnd, limits: limits}
	z, err := zip.NewReader(r, file.Size())
	r.left = math.MaxInt64 // files are read by what newArchive says of their sizes
	return z, err
}

// rationed gives only so many bytes.
type rationed struct {
	file   io.ReaderAt
	left   int64
	limits Limits
}

func (r *rationed) ReadAt(b []byte, off int64) (int, error) {
	if r.left -= int64(len(b)); r.left < 0 {
		return 0, tooManyFiles(fmt.Sprintf("the archive's directory is longer than that of %d files", r.limits.Files))
	}
	return r.file.ReadAt(b, off)
}

func tooManyFiles(what string) *fieldkit.Error {
	return &fieldkit.Error{Kind: fieldkit.TooBig, What: what, Do: "choose a backup file"}
}
