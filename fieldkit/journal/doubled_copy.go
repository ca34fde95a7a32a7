package journal

import (
	"bytes"
	"context"
	"errors"
	"math"
	"slices"
)

// carrier brings one store up to another.
type carrier struct {
	from, to Store
	turn     func() (done func()) // taken for each write
	bare     func() bool          // photos are left out; nil: none are

	kept map[string]bool // photos that to has; nil until it was asked
}

// errMissing ends a copy where an entry is missing, or another journal goes on.
var errMissing = errors.New("an entry is missing that the next one follows")

// run appends what from has after the head of to, each entry with its photos, so that
// neither is there without the other. The photos of an entry that names very many, and with
// every all others that to lacks, follow a few at a time. left says why not all photos came.
func (c *carrier) run(ctx context.Context, every bool) (count int, left, err error) {
	var photos []string
	if every { // asked before the entries: each photo belongs to one of them
		if photos, err = c.from.Blobs(ctx); err != nil {
			return 0, nil, err
		}
	}
	have, err := c.to.Since(ctx, math.MaxUint64)
	if err != nil {
		return 0, nil, err
	}
	tail, err := c.from.Since(ctx, have.Head.Seq)
	if err != nil {
		return 0, nil, err
	}
	for _, r := range tail.Records {
		mine, err := c.lacking(ctx, named(r.Body))
		if err != nil {
			return count, left, err
		}
		with := mine[:min(readAtOnce, len(mine))]
		photos = append(photos, mine[len(with):]...)
		without, err := c.entry(ctx, r, with)
		if err != nil {
			return count, left, err
		}
		if without != nil {
			left = without
		}
		count++
	}
	if err := c.photos(ctx, photos); err != nil {
		left = err
	}
	return count, left, nil
}

// entry appends one entry with photos; without says why they did not come with it.
func (c *carrier) entry(ctx context.Context, r Record, hashes []string) (without, err error) {
	blobs, without := c.read(ctx, hashes)
	defer c.turn()()
	err = c.to.Append(ctx, r, blobs)
	if err != nil && !errors.Is(err, ErrBehind) && len(blobs) > 0 { // an entry is worth more than its photos
		without = err
		err = c.to.Append(ctx, r, nil)
	} else if err == nil {
		c.have(blobs)
	}
	if errors.Is(err, ErrBehind) {
		if same, err := goesOn(ctx, c.to, r.Head()); err != nil || !same {
			return without, errors.Join(errMissing, err)
		}
		return without, nil // another tab has just copied it
	}
	return without, err
}

// photos brings those of the photos that to lacks.
func (c *carrier) photos(ctx context.Context, hashes []string) error {
	hashes, err := c.lacking(ctx, hashes)
	if err != nil {
		return err
	}
	for some := range slices.Chunk(hashes, readAtOnce) {
		blobs, unread := c.read(ctx, some)
		if err = unread; err == nil && len(blobs) > 0 {
			done := c.turn()
			err = c.to.PutBlobs(ctx, blobs)
			done()
		}
		if err != nil {
			return err
		}
		c.have(blobs)
	}
	return nil
}

// read gives those of the photos that are whole. One that cannot be read holds no entry
// back; one that is damaged is not carried on.
func (c *carrier) read(ctx context.Context, hashes []string) ([]Blob, error) {
	if len(hashes) == 0 || c.bare != nil && c.bare() {
		return nil, nil
	}
	blobs, err := c.from.BlobsOf(ctx, hashes)
	return slices.DeleteFunc(blobs, func(b Blob) bool { return !b.Whole() }), err
}

// lacking is those of the photos that to has not, each once.
func (c *carrier) lacking(ctx context.Context, hashes []string) (lacking []string, err error) {
	if len(hashes) == 0 || c.bare != nil && c.bare() {
		return nil, nil
	}
	if c.kept == nil {
		kept, err := c.to.Blobs(ctx)
		if err != nil {
			return nil, err
		}
		c.kept = map[string]bool{}
		for _, hash := range kept {
			c.kept[hash] = true
		}
	}
	seen := map[string]bool{}
	for _, hash := range hashes {
		if !c.kept[hash] && !seen[hash] {
			seen[hash] = true
			lacking = append(lacking, hash)
		}
	}
	return lacking, nil
}

func (c *carrier) have(blobs []Blob) {
	for _, b := range blobs {
		c.kept[b.Hash] = true
	}
}

// named lists what in the bytes of an entry may name a photo: quoted texts that read like a
// hash, wherever they stand.
func named(body []byte) (hashes []string) {
	for {
		at := bytes.IndexByte(body, '"')
		if at < 0 {
			return hashes
		}
		if body = body[at+1:]; len(body) <= hashLen || body[hashLen] != '"' {
			continue
		}
		if text := body[:hashLen]; len(bytes.Trim(text, "0123456789abcdef")) == 0 {
			hashes = append(hashes, string(text))
		}
	}
}

// hashLen is the length of the name of a photo.
const hashLen = 64
