package backup

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// Limits hold off archives that would choke the device.
type Limits struct {
	Files int   // in the archive
	Total int64 // bytes of the archive, and of all files unpacked
	Photo int64 // bytes of one photo
	Ratio int64 // unpacked bytes for one packed byte, for files beyond a megabyte
}

// Default is far above any real kit: photos are shrunk before they are kept.
// Deflate reaches a ratio of about 1000 on nothing but zeros; kit files stay
// below 40.
var Default = Limits{Files: 20_000, Total: 1 << 30, Photo: 32 << 20, Ratio: 200}

// Raw is for the raw records of a journal: entries are never removed, so that there may be
// as many as were made in all the years.
var Raw = Limits{Files: 100_000, Total: Default.Total, Photo: Default.Photo, Ratio: Default.Ratio}

const (
	ratioFrom   = 1 << 20 // smaller files may shrink as they like
	maxPath     = 200     // bytes of a name in the archive
	maxManifest = 8 << 20 // bytes; one file takes about 200
)

// archive is an opened zip whose directory has been checked.
type archive struct {
	file   *io.SectionReader
	limits Limits
	files  map[string]*zip.File
}

func newArchive(file *io.SectionReader, z *zip.Reader, limits Limits) (*archive, error) {
	a := &archive{file: file, limits: limits, files: map[string]*zip.File{}}
	if len(z.File) > limits.Files {
		return nil, tooManyFiles(fmt.Sprintf("the archive holds %d files, more than %d", len(z.File), limits.Files))
	}
	var packed, unpacked int64
	seen := map[string]bool{}
	for _, f := range z.File {
		if err := checkEntry(f); err != nil {
			return nil, err
		}
		key := strings.ToLower(f.Name)
		if seen[key] {
			return nil, bad(shown(f.Name), "it is in the archive twice")
		}
		seen[key] = true
		size := int64(min(f.UncompressedSize64, 1<<62))
		unpacked = min(unpacked+size, 1<<62)
		packed += int64(min(f.CompressedSize64, uint64(file.Size())))
		switch most := a.most(f.Name); {
		case size > most:
			return nil, tooBig(shown(f.Name), size, most)
		case unpacked > limits.Total:
			return nil, tooBig("the unpacked archive", unpacked, limits.Total)
		case packed > file.Size():
			return nil, bad("", "the archive's files lie over each other")
		case size > ratioFrom && size/limits.Ratio > int64(f.CompressedSize64):
			return nil, &fieldkit.Error{Kind: fieldkit.TooBig, Where: shown(f.Name), What: "it would swell to more than is believable", Do: "choose a backup file"}
		}
		if !strings.HasSuffix(f.Name, "/") {
			a.files[f.Name] = f
		}
	}
	return a, nil
}

// checkEntry refuses names that lead elsewhere and files that are not plain.
func checkEntry(f *zip.File) error {
	name := f.Name
	switch {
	case name == "" || len(name) > maxPath || !utf8.ValidString(name):
		return bad(shown(name), "it is not a file name of a backup")
	case strings.ContainsAny(name, "\\:") || strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }):
		return bad(shown(name), "it is not a file name of a backup")
	case strings.HasPrefix(name, "/") || strings.Contains("/"+name+"/", "/../") || strings.Contains("/"+name, "//"):
		return bad(shown(name), "its name leads out of the archive")
	case f.Flags&1 != 0:
		return bad(shown(name), "it is locked with a password")
	case f.Method != zip.Store && f.Method != zip.Deflate:
		return bad(shown(name), fmt.Sprintf("it is packed in an unknown way (%d)", f.Method))
	case !f.Mode().IsRegular() && !(f.Mode().IsDir() && strings.HasSuffix(name, "/") && f.UncompressedSize64 == 0):
		return bad(shown(name), "it is not a plain file")
	}
	return nil
}

func (a *archive) most(name string) int64 {
	switch {
	case name == manifestName:
		return min(maxManifest, a.limits.Total)
	case strings.HasPrefix(name, photoFolder):
		return min(a.limits.Photo, a.limits.Total)
	}
	return min(fieldkit.MaxFileSize, a.limits.Total)
}

// read unpacks a file.
func (a *archive) read(name string) ([]byte, error) {
	f, ok := a.files[name]
	if !ok {
		return nil, bad("", fmt.Sprintf("the archive holds no %.80q", name))
	}
	size := f.UncompressedSize64 // within limits: newArchive has checked
	if f.Method == zip.Store {
		at, err := f.DataOffset()
		if err != nil || f.CompressedSize64 != size || uint64(at)+size > uint64(a.file.Size()) {
			return nil, bad(shown(name), "it is cut short")
		}
		content := make([]byte, size)
		if _, err := a.file.ReadAt(content, at); err != nil && !(errors.Is(err, io.EOF) && at+int64(size) == a.file.Size()) {
			return nil, unreadable(shown(name), err)
		}
		return content, nil
	}
	r, err := f.Open()
	if err != nil {
		return nil, bad(shown(name), "it cannot be unpacked: "+err.Error())
	}
	defer r.Close()
	content, err := io.ReadAll(io.LimitReader(r, int64(size)+1))
	switch {
	case errors.Is(err, zip.ErrChecksum):
		return nil, bad(shown(name), "its checksum does not match")
	case err != nil:
		return nil, bad(shown(name), "it cannot be unpacked: "+err.Error())
	case uint64(len(content)) != size:
		return nil, bad(shown(name), "it is not as long as the archive says")
	}
	return content, nil
}

// checked unpacks a file and compares it with the manifest.
func (a *archive) checked(f listed) ([]byte, error) {
	content, err := a.read(f.Path)
	if err != nil {
		return nil, err
	}
	if int64(len(content)) != f.Size {
		return nil, bad(shown(f.Path), fmt.Sprintf("it is %d bytes long instead of %d", len(content), f.Size))
	}
	if journal.BlobHash(content) != f.Sum {
		return nil, bad(shown(f.Path), "its checksum does not match")
	}
	return content, nil
}

// allListed compares the archive's files with the manifest's, both ways.
func (a *archive) allListed(m manifest) error {
	names := map[string]bool{}
	for _, f := range m.Files {
		if names[f.Path] {
			return bad(manifestName, fmt.Sprintf("it lists %.80q twice", f.Path))
		}
		names[f.Path] = true
		if _, ok := a.files[f.Path]; !ok || f.Path == manifestName {
			return bad(manifestName, fmt.Sprintf("it lists %.80q, which the archive does not hold", f.Path))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(a.files)) {
		if name != manifestName && !names[name] {
			return bad(shown(name), "the manifest does not list it")
		}
	}
	return nil
}

// unreadable is an error of the file itself, in its own words if it has some.
func unreadable(where string, err error) error {
	var e *fieldkit.Error
	if errors.As(err, &e) {
		return err
	}
	return bad(where, "it cannot be read: "+err.Error())
}

// shown makes a name from outside fit to print.
func shown(name string) string {
	if len(name) <= maxPath && utf8.ValidString(name) && !strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return name
	}
	return fmt.Sprintf("%.60q", name)
}

func tooBig(where string, size, most int64) *fieldkit.Error {
	what := fmt.Sprintf("it is %.1f MB long, more than the %.1f MB it may have", float64(size)/1e6, float64(most)/1e6)
	return &fieldkit.Error{Kind: fieldkit.TooBig, Where: where, What: what, Do: "choose a backup file"}
}
