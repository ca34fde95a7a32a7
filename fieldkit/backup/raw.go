package backup

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"trailfieldkit/fieldkit/journal"
)

// WriteRaw writes everything that could be read of a store that does not open, as it
// is and unchecked, so that nothing is lost by going on without it:
//
//	index.json               every record and snapshot: number, checksums, file
//	entries/<number>.json    the bytes of each entry
//	snapshots/<number>.json  the kit of each snapshot
//	photos/<hash>.jpg        photos, whether or not their bytes match
//	unread.txt               what could not be read, a line each
//
// It is no backup: Read refuses it, ReadRaw reads it back. photo gives a photo's bytes; the hashes of those it
// has not are returned.
func WriteRaw(w io.Writer, s journal.Salvage, photo func(hash string) (journal.Blob, error)) (missing []string, err error) {
	z := zip.NewWriter(w)
	put := func(name string, method uint16, content []byte) {
		if err != nil {
			return
		}
		var f io.Writer
		if f, err = z.CreateHeader(&zip.FileHeader{Name: name, Method: method}); err == nil {
			_, err = f.Write(content)
		}
	}
	index := rawIndex{What: rawWhat, Head: s.Head}
	for i, r := range s.Records {
		name := fmt.Sprintf("entries/%06d-%d.json", i+1, r.Seq) // two may claim one number
		put(name, zip.Deflate, r.Body)
		index.Entries = append(index.Entries, rawLine{File: name, Seq: r.Seq, Prev: r.Prev, Hash: r.Hash})
	}
	for i, shot := range s.Snapshots {
		name := fmt.Sprintf("snapshots/%06d-%d.json", i+1, shot.Head.Seq)
		put(name, zip.Deflate, shot.Kit)
		index.Snapshots = append(index.Snapshots, rawLine{File: name, Seq: shot.Head.Seq, Hash: shot.Head.Hash, Sum: shot.Sum})
		if len(shot.History) > 0 {
			put(name+rawHistory, zip.Deflate, shot.History)
		}
	}
	var unread bytes.Buffer
	for _, text := range s.Unread {
		fmt.Fprintln(&unread, text)
	}
	for _, hash := range s.Photos {
		b, fault := photo(hash)
		if fault != nil {
			missing = append(missing, hash)
			fmt.Fprintf(&unread, "photo %s: %v\n", hash, fault)
			continue
		}
		put(fmt.Sprintf("photos/%s.jpg", safeName(hash)), zip.Store, b.Data)
	}
	put(rawUnreadName, zip.Deflate, unread.Bytes())
	text, fault := json.MarshalIndent(index, "", "  ")
	if fault != nil {
		return missing, fault
	}
	put(rawIndexName, zip.Deflate, text)
	if err != nil {
		return missing, err
	}
	return missing, z.Close()
}

// safeName keeps what a hash is made of; whatever else a damaged key holds is left out.
func safeName(hash string) string {
	var b []byte
	for i := range min(len(hash), 80) {
		if c := hash[i]; c >= '0' && c <= '9' || c >= 'a' && c <= 'z' {
			b = append(b, c)
		}
	}
	return string(b)
}
