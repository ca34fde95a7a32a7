package journal

import (
	"context"
	"errors"
	"fmt"

	"trailfieldkit/fieldkit"
)

// Store keeps one kit's journal, snapshots and photos. Handles on the same kept
// data may be open in several tabs; each method is safe for concurrent use, and
// each is one transaction: readers see all of a write or nothing of it.
//
// A method that fails has changed nothing, except that a write whose
// acknowledgement was lost may be there in whole. Errors are *fieldkit.Error of
// kind Storage unless said otherwise, or the context's error.
type Store interface {
	// Load returns the newest snapshot taken at or before entry upTo, nil if there
	// is none, and every record after that snapshot in rising order, also those
	// after upTo. An empty store gives an empty Saved and no error.
	Load(ctx context.Context, upTo uint64) (Saved, error)

	// Since returns the records after entry seq in rising order; none is no error.
	Since(ctx context.Context, seq uint64) (Tail, error)

	// Append keeps a record and its blobs in one transaction and returns when they
	// are durable, or returns ErrBehind if the record is not the next one: its Seq
	// must be one more than the head's and its Prev the head's Hash. A blob that is
	// kept already with the same bytes stays as it is; with others, damaged, it is
	// replaced. Blobs that lie elsewhere are loaded first; if one cannot be, its error
	// is returned.
	Append(ctx context.Context, r Record, blobs []Blob) error

	// PutBlobs keeps blobs without an entry, in one transaction, otherwise as Append does.
	// Blobs belong to a journal: an empty one takes none and gives ErrBehind.
	PutBlobs(ctx context.Context, blobs []Blob) error

	// PutSnapshot keeps a snapshot and drops all but the SnapshotsKept of the highest
	// Head.Seq. It never removes records. A snapshot of the same Seq is replaced.
	PutSnapshot(ctx context.Context, s Snapshot) error

	// BlobsOf returns the bytes kept under each of the hashes, in their order; what is
	// not kept is the zero Blob. It does not check the hashes.
	BlobsOf(ctx context.Context, hashes []string) ([]Blob, error)

	// Blobs returns the hashes of all blobs, sorted.
	Blobs(ctx context.Context) ([]string, error)

	// Delete throws everything away and closes this handle. Deleting what is not
	// there is no error. Other handles find an empty store.
	Delete(ctx context.Context) error

	// Close ends the use of this handle; every later call but Close and Delete
	// returns ErrClosed. Closing twice is no error.
	Close() error
}

// Copy is a store that may give up photos to make room: a second copy, see Doubled.
type Copy interface {
	Store

	// DropBlobs removes the blobs of those hashes; what is not kept is no error.
	DropBlobs(ctx context.Context, hashes []string) error

	// GiveUp is Delete where the room is needed at once.
	GiveUp(ctx context.Context) error
}

// Saved is what a store holds from a snapshot on.
type Saved struct {
	Snapshot *Snapshot
	Tail
}

// Tail is the end of a journal.
type Tail struct {
	Records []Record
	Head    Head // of the whole journal, as Latest finds it
}

var (
	// ErrFull is wrapped by the error of a store that has no room left: something
	// smaller may still be kept.
	ErrFull = errors.New("no room is left")
	// ErrBehind says that the journal has grown since the caller read it.
	ErrBehind error = &fieldkit.Error{Kind: fieldkit.Conflict,
		What: "something else was written down meanwhile", Do: "read it in and repeat"}
	// ErrClosed says that the store was closed.
	ErrClosed error = &fieldkit.Error{Kind: fieldkit.Storage,
		What: "the kit is closed", Do: "open it again"}
)

// NoBlob is the error of a store that holds no blob of that hash.
func NoBlob(hash string) error {
	return &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("photo %.12q is not kept here", hash), Do: "restore it from a backup"}
}
