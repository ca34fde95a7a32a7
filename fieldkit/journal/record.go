package journal

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// Record is a sealed entry as a store keeps it. Stores keep all four fields as
// they are and look into none but Seq and Hash.
type Record struct {
	Seq  uint64
	Prev string // Hash of the record before, "" for the first
	Hash string // SHA-256 over Prev and Body, in hex
	Body []byte // the entry as JSON
}

// Head is the last record of a journal; the zero Head is an empty journal.
type Head struct {
	Seq  uint64
	Hash string
}

// maxSeq is beyond any journal; a head that claims more is damaged.
const maxSeq = 1 << 48

// Seal makes the record of an entry that follows prev. It is read back at once: what
// could not be read again must not be acknowledged.
func Seal(e Entry, prev Head) (Record, error) {
	body, err := e.encode()
	if err != nil {
		return Record{}, &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q cannot be written down", e.What), Cause: err}
	}
	r := Record{Seq: e.Seq, Prev: prev.Hash, Hash: chain(prev.Hash, body), Body: body}
	if _, err := r.read(); err != nil {
		return Record{}, &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q cannot be written down so that it can be read again", e.What), Cause: err}
	}
	return r, nil
}

// Entry checks the record's own checksum and reads it. It does not check that the
// record follows the one before.
func (r Record) Entry() (Entry, error) {
	if r.Hash != chain(r.Prev, r.Body) {
		return Entry{}, damaged("its checksum does not match")
	}
	return r.read()
}

// read is Entry of a record whose checksum was just made or checked.
func (r Record) read() (Entry, error) {
	e, err := decodeEntry(r.Body)
	if err != nil {
		return Entry{}, damaged("it cannot be read: " + err.Error())
	}
	if e.Seq != r.Seq {
		return Entry{}, damaged(fmt.Sprintf("it is number %d in the place of number %d", e.Seq, r.Seq))
	}
	return e, nil
}

// Head is the head of a journal that ends with this record.
func (r Record) Head() Head { return Head{r.Seq, r.Hash} }

// Latest picks the head of a journal from everything that tells it, so that a
// number once used is not used again even if one of them was lost: the head kept
// by itself, the last record and the newest snapshot. Among equals the record is
// believed first.
func Latest(kept Head, last Record, newest Snapshot) Head {
	head := last.Head()
	for _, h := range []Head{kept, newest.Head} {
		if h.Seq > head.Seq && h.Seq <= maxSeq {
			head = h
		}
	}
	return head
}

func chain(prev string, body []byte) string { return hexSum([]byte(prev+"\n"), body) }

func damaged(what string) *fieldkit.Error {
	return &fieldkit.Error{Kind: fieldkit.Storage, What: what}
}

// Reseal makes the record of other bytes in the place of r, as a program of another
// version or a damaged one would have written it.
func Reseal(r Record, body []byte) Record {
	return Record{Seq: r.Seq, Prev: r.Prev, Hash: chain(r.Prev, body), Body: body}
}
