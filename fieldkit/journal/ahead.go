package journal

import (
	"context"
	"iter"
	"slices"
)

// readAtOnce is how many photos are read in one transaction: enough that beginning and
// ending it no longer counts, and few enough to lie in memory twice.
const readAtOnce = 8

// EachBlob gives the photos of the hashes in their order, or why one cannot be had, as
// Blob does. While some are worked on, the next ones are on their way. That the bytes
// are those of the hash is left to the caller.
func (s *Session) EachBlob(ctx context.Context, hashes []string) iter.Seq2[Blob, error] {
	type batch struct {
		blobs []Blob
		err   error
	}
	begin := func(hashes []string) <-chan batch {
		read := make(chan batch, 1)
		go func() {
			blobs, err := s.store.BlobsOf(ctx, hashes)
			read <- batch{blobs, err}
		}()
		return read
	}
	return func(yield func(Blob, error) bool) {
		batches := slices.Collect(slices.Chunk(hashes, readAtOnce))
		var coming <-chan batch
		for i, asked := range batches {
			if i == 0 {
				coming = begin(asked)
			}
			here := <-coming
			if i+1 < len(batches) {
				coming = begin(batches[i+1])
			}
			for j, hash := range asked {
				b, err := Blob{}, here.err
				switch {
				case err != nil:
				case here.blobs[j].Hash == "":
					err = NoBlob(hash)
				default:
					b = here.blobs[j]
				}
				if !yield(b, err) {
					return
				}
			}
		}
	}
}
