package backup_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// phone is a kit on a phone, and what it hands over.
type phone struct {
	*journal.Session
	t     *testing.T
	store *journal.Memory
	name  string
	acts  int
}

func phoneWith(t *testing.T, name string, kit fieldkit.Kit, photos ...journal.Blob) *phone {
	store := journal.NewMemory()
	s, _, err := journal.Open(t.Context(), store, func() fieldkit.Kit { return kit })
	require.NoError(t, err)
	p := &phone{Session: s, t: t, store: store, name: name}
	if len(photos) > 0 {
		_, err = p.Restore(t.Context(), "begun", made, p.newID, p.Replica(), photos...)
		require.NoError(t, err)
	}
	return p
}

func (p *phone) newID() string { p.acts++; return fmt.Sprintf("%s-%d", p.name, p.acts) }

// breaks logs a failure with photos.
func (p *phone) breaks(what string, photos ...journal.Blob) {
	p.t.Helper()
	f := fieldkit.Failure{ID: p.newID(), Rig: "bramble", On: fieldkit.DateOf(made.Time), What: what}
	for _, b := range photos {
		f.Photos = append(f.Photos, b.Hash)
	}
	_, err := p.Do(p.t.Context(), what, made, p.newID, func(e *journal.Edit) error { e.Put(f); return nil }, photos...)
	require.NoError(p.t, err)
}

// archive is the phone's backup.
func (p *phone) archive() []byte {
	p.t.Helper()
	var b bytes.Buffer
	photo := func(hash string) (journal.Blob, error) { return p.Blob(p.t.Context(), hash) }
	missing, err := backup.WriteAll(&b, p.Replica(), backup.OneByOne(photo), made, nil)
	require.NoError(p.t, err)
	require.Empty(p.t, missing, "every photo the kit shows is there")
	return b.Bytes()
}

// mergeWith takes in another phone's backup.
func (p *phone) mergeWith(archive []byte) journal.Entry {
	p.t.Helper()
	c, err := backup.Read(archive, backup.Default)
	require.NoError(p.t, err)
	e, err := p.Merge(p.t.Context(), "merged", made, p.newID, c.Replica(), c.Photos...)
	require.NoError(p.t, err)
	return e
}

// Two phones log failures with photos and exchange backups: both end with the same kit
// and all photos, whoever merges first, and a third one in whatever order it takes them.
// Undo takes the entries away and loses no photo of one's own.
func TestPhotosOfBothPhonesAreMerged(t *testing.T) {
	mine, theirs := phoneWith(t, "mine", testKit(), joint, pad), phoneWith(t, "theirs", testKit(), joint, pad)
	mine.breaks("boot torn", journal.NewBlob("image/jpeg", []byte("\xff\xd8 the boot")))
	theirs.breaks("strap worn", journal.NewBlob("image/jpeg", []byte("\xff\xd8 the strap")), stray)
	a, b := mine.archive(), theirs.archive()
	entry := mine.mergeWith(b)
	theirs.mergeWith(a)
	both := contentsOf(t, mine)
	require.Len(t, both.Photos, 5)
	assert.Equal(t, both.Photos, contentsOf(t, theirs).Photos)
	assert.Equal(t, string(kitfile.Save(mine.Kit())), string(kitfile.Save(theirs.Kit())))
	assert.Empty(t, mine.mergeWith(theirs.archive()).ID, "nothing is left to merge")

	for _, order := range [][][]byte{{a, b}, {b, a}, {mine.archive(), a}, {b, theirs.archive(), a}} {
		third := phoneWith(t, "third", testKit(), joint, pad)
		for _, archive := range order {
			third.mergeWith(archive)
		}
		assert.Equal(t, both.Photos, contentsOf(t, third).Photos)
		assert.Equal(t, string(kitfile.Save(both.Kit)), string(kitfile.Save(third.Kit())))
	}

	_, err := mine.Undo(t.Context(), entry.ID, made, mine.newID)
	require.NoError(t, err)
	before, err := backup.Read(a, backup.Default)
	require.NoError(t, err)
	assert.Equal(t, before.Photos, contentsOf(t, mine).Photos)
	assert.Equal(t, string(kitfile.Save(before.Kit)), string(kitfile.Save(mine.Kit())))
}

func contentsOf(t *testing.T, p *phone) backup.Contents {
	t.Helper()
	c, err := backup.Read(p.archive(), backup.Default)
	require.NoError(t, err)
	return c
}

// A restore that is taken back gives back the kit before with its photos, and can be
// done again with those of the backup.
func TestRestoreTakenBackHasItsPhotos(t *testing.T) {
	p := phoneWith(t, "p", testKit(), joint, pad)
	old := contentsOf(t, p)
	p.breaks("strap worn", stray)
	before := contentsOf(t, p)
	require.Len(t, before.Photos, 3)
	other := phoneWith(t, "other", testKit(), joint, pad)
	other.breaks("boot torn", journal.NewBlob("image/jpeg", []byte("\xff\xd8 the boot")))
	with := contentsOf(t, other)
	for _, c := range []backup.Contents{old, with} {
		e, err := p.Restore(t.Context(), "restored", made, p.newID, c.Replica(), c.Photos...)
		require.NoError(t, err)
		assert.Equal(t, c.Photos, contentsOf(t, p).Photos)
		assert.Equal(t, string(kitfile.Save(c.Kit)), string(kitfile.Save(p.Kit())))
		_, err = p.Undo(t.Context(), e.ID, made, p.newID)
		require.NoError(t, err)
		assert.Equal(t, before.Photos, contentsOf(t, p).Photos)
		assert.Equal(t, string(kitfile.Save(before.Kit)), string(kitfile.Save(p.Kit())))
	}
}

// Photos come in with a copy that says nothing new, where the entries they belong to came
// without them: from a kit file, or from a phone that had lost them.
func TestPhotosThatComeLater(t *testing.T) {
	mine, theirs := phoneWith(t, "mine", testKit(), joint, pad), phoneWith(t, "theirs", testKit(), joint, pad)
	theirs.breaks("strap worn", stray)
	_, err := mine.Merge(t.Context(), "merged", made, mine.newID, theirs.Replica())
	require.NoError(t, err)
	_, err = mine.Blob(t.Context(), stray.Hash)
	require.Error(t, err, "the entry came without it")
	require.NotEmpty(t, mine.mergeWith(theirs.archive()).ID)
	require.Len(t, contentsOf(t, mine).Photos, 3)
	require.Empty(t, mine.mergeWith(theirs.archive()).ID, "nothing is left to take in")

	damaged := stray
	damaged.Data = append([]byte{stray.Data[0] ^ 1}, stray.Data[1:]...)
	require.NoError(t, mine.store.PutBlobs(t.Context(), []journal.Blob{damaged}))
	require.NotEmpty(t, mine.mergeWith(theirs.archive()).ID, "one that is damaged comes too")
	_, err = mine.Blob(t.Context(), stray.Hash)
	require.NoError(t, err)
}
