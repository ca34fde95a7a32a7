package backup

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// rawWhat names the format of raw files in their index.
const rawWhat = "raw records of a journal, unchecked"

const (
	rawIndexName  = "index.json"
	rawUnreadName = "unread.txt"
	rawHistory    = ".history" // after the name of a snapshot
)

// rawIndex lists what a raw file holds.
type rawIndex struct {
	What      string       `json:"what"`
	Head      journal.Head `json:"head"`
	Entries   []rawLine    `json:"entries"`
	Snapshots []rawLine    `json:"snapshots"`
}

type rawLine struct {
	File string `json:"file"`
	Seq  uint64 `json:"seq"`
	Prev string `json:"prev,omitempty"`
	Hash string `json:"hash,omitempty"`
	Sum  string `json:"sum,omitempty"`
}

// IsRaw tells a file that WriteRaw wrote from a backup, by its directory alone.
func IsRaw(file *io.SectionReader) bool {
	z, err := openZip(file, Raw)
	if err != nil {
		return false
	}
	names := map[string]bool{}
	for _, f := range z.File {
		names[f.Name] = true
	}
	return names[rawIndexName] && !names[manifestName]
}

// ReadRaw reads back what WriteRaw wrote: all that can still be read of it, for
// Salvage.Recover, and the photos that are whole. What is listed and cannot be read, in
// the file or in the store it was made from, stands in Unread. Errors are those of
// Read, for a file that is no such archive or beyond the limits.
func ReadRaw(file *io.SectionReader, limits Limits) (s journal.Salvage, photos []journal.Blob, err error) {
	if file.Size() > limits.Total {
		return s, nil, tooBig("the file", file.Size(), limits.Total)
	}
	z, err := openZip(file, limits)
	if err != nil {
		return s, nil, &fieldkit.Error{Kind: fieldkit.BadInput, What: "the file holds no raw records, or it was cut short (" + err.Error() + ")",
			Do: "choose another file, or copy it once more"}
	}
	a, err := newArchive(file, z, limits)
	if err != nil {
		return s, nil, err
	}
	text, err := a.read(rawIndexName)
	if err != nil {
		return s, nil, err
	}
	var index rawIndex
	if err := json.Unmarshal(text, &index); err != nil {
		return s, nil, bad(rawIndexName, "it is not JSON: "+err.Error())
	}
	if index.What != rawWhat {
		return s, nil, bad(rawIndexName, fmt.Sprintf("it says it is %.60q", index.What))
	}
	if n := len(index.Entries) + len(index.Snapshots); n > limits.Files {
		return s, nil, tooManyFiles(fmt.Sprintf("%s lists %d records, more than %d", rawIndexName, n, limits.Files))
	}
	s = journal.Salvage{Head: index.Head, Unread: a.unread()}
	listed := map[string]bool{} // one listed a thousand times would be held a thousand times
	piece := func(l rawLine, folder string) ([]byte, bool) {
		if !strings.HasPrefix(l.File, folder) {
			s.Unread = append(s.Unread, fmt.Sprintf("%s is listed in the wrong place", shown(l.File)))
			return nil, false
		}
		if listed[l.File] {
			s.Unread = append(s.Unread, fmt.Sprintf("%s is listed twice", shown(l.File)))
			return nil, false
		}
		listed[l.File] = true
		content, err := a.read(l.File)
		if err != nil {
			s.Unread = append(s.Unread, err.Error())
		}
		return content, err == nil
	}
	for _, l := range index.Entries {
		if body, ok := piece(l, "entries/"); ok {
			s.Records = append(s.Records, journal.Record{Seq: l.Seq, Prev: l.Prev, Hash: l.Hash, Body: body})
		}
	}
	for _, l := range index.Snapshots {
		kit, ok := piece(l, "snapshots/")
		if !ok {
			continue
		}
		shot := journal.Snapshot{Head: journal.Head{Seq: l.Seq, Hash: l.Hash}, Kit: kit, Sum: l.Sum}
		if _, there := a.files[l.File+rawHistory]; there {
			if shot.History, ok = piece(rawLine{File: l.File + rawHistory}, "snapshots/"); !ok {
				continue
			}
		}
		s.Snapshots = append(s.Snapshots, shot)
	}
	return s, a.rawPhotos(&s), nil
}

// unread is what could not be read when the file was made.
func (a *archive) unread() (lines []string) {
	if _, there := a.files[rawUnreadName]; !there {
		return nil
	}
	text, err := a.read(rawUnreadName)
	if err != nil {
		return []string{err.Error()}
	}
	for line := range strings.Lines(strings.ToValidUTF8(string(text), "\ufffd")) {
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// rawPhotos gives the photos whose bytes are those of their name.
func (a *archive) rawPhotos(s *journal.Salvage) (photos []journal.Blob) {
	for _, name := range slices.Sorted(maps.Keys(a.files)) {
		inside, isPhoto := strings.CutPrefix(name, photoFolder)
		if !isPhoto {
			continue
		}
		content, err := a.read(name)
		if err != nil {
			s.Unread = append(s.Unread, err.Error())
			continue
		}
		b := journal.NewBlob(photoType(content), content)
		if hash, _, _ := strings.Cut(inside, "."); hash != b.Hash {
			s.Unread = append(s.Unread, fmt.Sprintf("photo %.12s: its bytes are not those of its checksum", inside))
			continue
		}
		b.Data, b.Read = nil, func() ([]byte, error) { return a.read(name) } // read again when it is kept
		photos = append(photos, b)
		s.Photos = append(s.Photos, b.Hash)
	}
	return photos
}

// photoType tells the kind of photo by how its bytes begin: PNG (ISO/IEC 15948), WebP
// (RFC 9649, RIFF container), else JPEG, which is what the app keeps.
func photoType(content []byte) string {
	switch {
	case bytes.HasPrefix(content, []byte("\x89PNG\r\n\x1a\n")):
		return "image/png"
	case len(content) >= 12 && string(content[:4]) == "RIFF" && string(content[8:12]) == "WEBP":
		return "image/webp"
	}
	return "image/jpeg"
}
