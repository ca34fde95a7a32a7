package backup

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"iter"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/merge"
)

// Photos gives the photos of hashes, one for each and in their order, or why it cannot
// be had.
type Photos func(hashes []string) iter.Seq2[journal.Blob, error]

// OneByOne gives photos that can be had by their hash.
func OneByOne(photo func(hash string) (journal.Blob, error)) Photos {
	return func(hashes []string) iter.Seq2[journal.Blob, error] {
		return func(yield func(journal.Blob, error) bool) {
			for _, hash := range hashes {
				if !yield(photo(hash)) {
					return
				}
			}
		}
	}
}

// Write is WriteAll of a kit without history.
func Write(w io.Writer, kit fieldkit.Kit, photo func(hash string) (journal.Blob, error), made fieldkit.Moment) (missing []string, err error) {
	return WriteAll(w, merge.Replica{Kit: kit}, OneByOne(photo), made, nil)
}

// WriteAll writes the backup of a kit with its history. The hashes of the photos are
// checked here. One that is NotFound, damaged or of an unknown type is noted in the
// archive as missing and returned: a kit that lost a photo can still be backed up. Any
// other error ends the writing. Turn, if there is one, is called again and again while
// the kit and its history are made into files, where others have to have theirs meanwhile; the writer can
// do so for all that follows.
// The same kit, history, photos and moment give the same files in the same order.
func WriteAll(w io.Writer, all merge.Replica, photos Photos, made fieldkit.Moment, turn func()) (missing []string, err error) {
	if turn == nil {
		turn = func() {}
	}
	kit := all.Kit
	z := zip.NewWriter(w)
	at, err := made.MarshalText()
	if err != nil {
		return nil, err
	}
	m := manifest{Format: Format, Version: fmt.Sprintf("%d.%d", MajorVersion, MinorVersion), MadeAt: string(at), Kit: kit.Name}
	for _, c := range fieldkit.Collections {
		m.Records += c.Len(kit)
	}
	add := func(path, mime string, data []byte, sum string, method uint16) error {
		m.Files = append(m.Files, listed{Path: path, Type: mime, Size: int64(len(data)), Sum: sum})
		return addFile(z, path, data, method, made)
	}
	text := kitfile.SaveInTurns(kit, turn)
	if err := add(kitName, "application/json", text, journal.BlobHash(text), zip.Deflate); err != nil {
		return nil, err
	}
	if all.History != nil {
		text = all.History.EncodeInTurns(turn)
		if err := add(historyName, "application/json", text, journal.BlobHash(text), zip.Deflate); err != nil {
			return nil, err
		}
	}
	text = nil // not kept while the photos are written
	hashes := photosOf(kit)
	for b, err := range photos(hashes) {
		hash := hashes[0]
		hashes = hashes[1:]
		var e *fieldkit.Error
		if err != nil && !(errors.As(err, &e) && e.Kind == fieldkit.NotFound) {
			return nil, err
		}
		ending, known := endingOf(b.Type)
		if err != nil || !known || b.Hash != hash || !b.Whole() {
			m.Missing = append(m.Missing, hash)
			continue
		}
		if err := add(photoFolder+hash+ending, b.Type, b.Data, hash, zip.Store); err != nil {
			return nil, err
		}
		m.Photos++
	}
	var list bytes.Buffer
	j := json.NewEncoder(&list)
	j.SetEscapeHTML(false)
	j.SetIndent("", "  ")
	if err := j.Encode(m); err != nil {
		return nil, err
	}
	if err := addFile(z, manifestName, list.Bytes(), zip.Deflate, made); err != nil {
		return nil, err
	}
	return m.Missing, z.Close()
}

func addFile(z *zip.Writer, path string, data []byte, method uint16, made fieldkit.Moment) error {
	f, err := z.CreateHeader(&zip.FileHeader{Name: path, Method: method, Modified: made.UTC()})
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return err
}
