package backup

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/merge"
	"trailfieldkit/fieldkit/order"
)

// Contents is what a backup holds.
type Contents struct {
	Kit     fieldkit.Kit
	History *merge.History // nil in backups of before version 1.1 and in kit files
	Photos  []journal.Blob // in the order of their hashes
	Missing []string       // photos the kit shows that the backup has not
	Made    fieldkit.Moment
}

// Of is what a backup of a kit with those photos would hold.
func Of(r merge.Replica, photos []journal.Blob) Contents {
	c := Contents{Kit: r.Kit, History: r.History, Photos: photos}
	for _, hash := range photosOf(r.Kit) {
		if !slices.ContainsFunc(photos, func(b journal.Blob) bool { return b.Hash == hash }) {
			c.Missing = append(c.Missing, hash)
		}
	}
	return c
}

// Replica is the kit with its history.
func (c Contents) Replica() merge.Replica { return merge.Replica{Kit: c.Kit, History: c.History} }

// Read checks a backup, or a kit file alone, and returns what it holds. Nothing
// is returned unless everything is in order.
// Errors: kind BadInput, TooBig or TooNew, saying which file of the archive is
// wrong and how; for the kit itself a *kitfile.Problems that lists every problem.
func Read(data []byte, limits Limits) (Contents, error) {
	c, err := ReadFile(InMemory(data), limits)
	for i := range c.Photos {
		if err == nil {
			c.Photos[i], err = c.Photos[i].Loaded()
		}
	}
	if err != nil {
		return Contents{}, err
	}
	return c, nil
}

// ReadFile is Read of a file that lies elsewhere. Everything is checked, piece by
// piece; the photos are read once more where they are used, and checked again: the
// file must be there until then.
func ReadFile(file *io.SectionReader, limits Limits) (Contents, error) {
	if file.Size() == 0 {
		return Contents{}, &fieldkit.Error{Kind: fieldkit.BadInput, What: "the file is empty", Do: "choose a backup file"}
	}
	if file.Size() > limits.Total {
		return Contents{}, tooBig("the file", file.Size(), limits.Total)
	}
	text, err := kitText(file)
	if err != nil {
		return Contents{}, err
	}
	if text != nil {
		kit, err := kitfile.Load("the kit file", text)
		if err != nil {
			return Contents{}, err
		}
		return Contents{Kit: kit, Missing: photosOf(kit)}, nil
	}
	z, err := openZip(file, limits)
	if errors.Is(err, zip.ErrFormat) {
		return Contents{}, &fieldkit.Error{Kind: fieldkit.BadInput, What: "the file is no backup, or it was cut short",
			Do: "choose another file, or copy it once more", Cause: err}
	}
	if err != nil {
		return Contents{}, unreadable("", err)
	}
	a, err := newArchive(file, z, limits)
	if err != nil {
		return Contents{}, err
	}
	return a.contents()
}

// InMemory is a file of which the bytes are at hand.
func InMemory(data []byte) *io.SectionReader {
	return io.NewSectionReader(bytes.NewReader(data), 0, int64(len(data)))
}

// kitText reads a kit file, nothing if the file is none; archives begin with "PK". One
// too long for a kit is read only as far as it takes to say so.
func kitText(file *io.SectionReader) ([]byte, error) {
	start := make([]byte, min(2, file.Size()))
	if _, err := file.ReadAt(start, 0); err != nil && !errors.Is(err, io.EOF) {
		return nil, unreadable("", err)
	}
	if string(start) == "PK" {
		return nil, nil
	}
	text := make([]byte, min(file.Size(), fieldkit.MaxFileSize+1))
	if _, err := file.ReadAt(text, 0); err != nil && !errors.Is(err, io.EOF) {
		return nil, unreadable("", err)
	}
	if text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf")); looksLikeKit(text) {
		return text, nil
	}
	return nil, nil
}

// looksLikeKit tells a kit file from everything else.
func looksLikeKit(text []byte) bool {
	start := bytes.TrimLeft(text, " \t\r\n")
	return len(start) > 0 && start[0] == '{'
}

func (a *archive) contents() (Contents, error) {
	raw, err := a.read(manifestName)
	if err != nil {
		return Contents{}, err
	}
	m, err := readManifest(raw)
	if err != nil {
		return Contents{}, err
	}
	if err := a.allListed(m); err != nil {
		return Contents{}, err
	}
	c := Contents{Made: m.Made}
	var kit []byte
	photos := 0
	for _, f := range m.Files {
		content, err := a.checked(f)
		if err != nil {
			return Contents{}, err
		}
		hash, isPhoto := f.photoHash()
		switch {
		case f.Path == kitName:
			kit = content
		case f.Path == historyName:
			if c.History, err = merge.Decode(content); err != nil {
				return Contents{}, within(historyName, err)
			}
		case isPhoto && hash == f.Sum:
			c.Photos = append(c.Photos, journal.Blob{Hash: hash, Type: f.Type, Read: func() ([]byte, error) { return a.read(f.Path) }})
			photos++
		case strings.HasPrefix(f.Path, photoFolder):
			return Contents{}, bad(f.Path, "it is not a photo named by its own checksum")
		case !m.newerMinor():
			return Contents{}, bad(f.Path, "a backup holds no such file")
		}
	}
	if photos != m.Photos {
		return Contents{}, bad(manifestName, fmt.Sprintf("it counts %d photos and lists %d", m.Photos, photos))
	}
	if kit == nil {
		return Contents{}, bad(manifestName, "it lists no "+kitName)
	}
	if c.Kit, err = kitfile.Load(kitName+" of the backup", kit); err != nil {
		return Contents{}, err
	}
	order.By(c.Photos, func(a, b journal.Blob) int { return strings.Compare(a.Hash, b.Hash) })
	c.Missing, err = missing(c, m)
	if err != nil {
		return Contents{}, err
	}
	return c, nil
}

// within says in which file of the archive an error is.
func within(name string, err error) error {
	var e *fieldkit.Error
	if !errors.As(err, &e) {
		return err
	}
	inside := *e
	if inside.Where = name; e.Where != "" {
		inside.Where += ", " + e.Where
	}
	return &inside
}

// missing returns the photos the kit shows that the backup has not. They must be
// those the manifest says were lost when it was made.
func missing(c Contents, m manifest) ([]string, error) {
	said := map[string]bool{}
	for _, hash := range m.Missing {
		said[hash] = true
	}
	var gone []string
	for _, hash := range photosOf(c.Kit) {
		_, here := slices.BinarySearchFunc(c.Photos, hash, func(b journal.Blob, h string) int { return strings.Compare(b.Hash, h) })
		if here {
			continue
		}
		if !said[hash] {
			return nil, bad(kitName, fmt.Sprintf("it shows photo %.12s, which is not in the backup", hash))
		}
		gone = append(gone, hash)
	}
	return gone, nil
}
