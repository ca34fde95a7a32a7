//go:build browser

package browsertest

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/largekit"
	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// In a kit of hundreds of parts the one that is fitted is found by typing some of its
// name, and stays chosen whatever is looked for next.
func TestOneOfManyParts(t *testing.T) {
	kit := data.DemoKit()
	for i := range 400 {
		kit.Parts = kit.Parts.With(fieldkit.Part{ID: fmt.Sprint("lot-", i), Kind: "brake-pads", Name: fmt.Sprint("Pad set, lot ", i)})
	}
	v := withDemo(t, "/rig")
	v.openBackup("many.zip", backupOf(t, kit))
	v.See("is whole.")
	v.Tap("button:Restore it")
	v.See("Restored many.zip")
	v.Go("/rig/position/edit?id=hobnail-front-brake-pads")
	v.See("shown: type part of the name to see others")
	list := `document.querySelector('main select[name=part]')`
	assert.Less(t, ask[int](v.phone, list+`.options.length`), 60)
	chosen := func(name string) {
		t.Helper()
		v.Choose("Part", name)
		v.Fill("Who proved it", name) // drawn since it was chosen
		v.WaitFor("the part chosen", list+`.selectedOptions[0].text === '`+name+`'`)
	}
	chosen("Pad set, lot 20")
	chosen("Pad set, lot 30")
	chosen("not known yet")
	v.Fill("Look in the list: Part", "LOT 377")
	v.See("1 on the list")
	v.Choose("Part", "Pad set, lot 377")
	v.Fill("Look in the list: Part", "lot 12")
	v.See("14 on the list") // 12, 112, 212, 312 and 120 to 129
	v.WaitFor("the part chosen", list+`.selectedOptions[0].text === 'Pad set, lot 377'`)
	chosen("Pad set, lot 112")
	chosen("Pad set, lot 377")
	v.Tap("button:Save position")
	v.At("/rig/position?id=hobnail-front-brake-pads")
	v.See("Pad set, lot 377")
}

// A list of a large kit is there at once when it is opened, and can be used while what it is
// good for is worked out; what is worked out of a list that changed is dropped.
func TestListOfALargeKit(t *testing.T) {
	kit := largekit.Kit(10)
	for _, r := range kit.Rigs[2:] {
		kit.Trips[0].Rigs = append(kit.Trips[0].Rigs, r.ID)
	}
	v := withDemo(t, "/rig")
	v.openBackup("large.zip", backupOf(t, kit))
	v.See("large.zip is whole.")
	v.Tap("button:Restore it in place of this kit")
	v.See("Restored large.zip")
	v.Go("/pack/trip?id=trip")
	v.See("0 of 60 packed", "Working out what this list is good for …", "Working out what else would help …")
	v.unfold()
	assert.NotContains(t, v.Text(), "Failures on this trip cost")
	tick := func(n int) {
		t.Helper()
		v.Run(fmt.Sprintf(`document.querySelectorAll('.tick')[%d].click()`, n-1))
		v.See(fmt.Sprintf("%d of 60 packed", n))
	}
	tick(1)
	v.See("Failures on this trip cost", "Left at home")
	assert.NotContains(t, v.Text(), "Working out what this list is good for")
	cost := v.figure(`with nothing on board, ≈ ([\d.]+) h`)

	// A tick changes nothing of it; another count does, and planning can be stopped.
	tick(2)
	assert.NotContains(t, v.Text(), "Working out what this list is good for")
	v.Tap("css:.packline a.more")
	v.See("Pieces on this trip", "Share of all that the list saves")
	v.Tap("css:.stepper button:last-child")
	v.See("working it out …", "Planning …")
	v.Tap("button:Stop planning, and take the best list so far")
	v.See("; planned again")
	v.Back()
	v.At("/pack/trip?id=trip")
	v.See("Failures on this trip cost", "by hand")
	assert.NotEqual(t, cost, v.figure(`with nothing on board, ≈ ([\d.]+) h`), "it is another list")
}

// Of two files chosen one after the other the later counts, also when the first is
// large and its check ends last.
func TestTwoFilesChosen(t *testing.T) {
	v := withDemo(t, "/rig")
	v.openBackup("large.zip", backupOf(t, largekit.Kit(10)))
	file := filepath.Join(t.TempDir(), "small.zip")
	require.NoError(t, os.WriteFile(file, backupOf(t, data.DemoKit()), 0o600))
	v.Upload("css:#file-restore", file)
	v.See("small.zip is whole.")
	v.WaitFor("the check of the first file to end", "document.querySelector('main [data-checking]').dataset.checking === '0'")
	words := v.Text()
	assert.Contains(t, words, "small.zip is whole.")
	assert.NotContains(t, words, "Kit of size 10", "what came of the first file is dropped")
}

// A backup of more than is read and written at once holds every photo to the byte.
func TestBackupWithManyPhotos(t *testing.T) {
	v := withDemo(t, "/rig")
	given := backupOf(t, largekit.Kit(2))
	v.openBackup("large.zip", given)
	v.See("large.zip is whole.")
	v.Tap("button:Restore it in place of this kit")
	v.See("Restored large.zip")
	name, made := v.Saved("button:Make a backup")
	v.See(name + " is in your downloads.")
	want, err := backup.Read(given, backup.Default)
	require.NoError(t, err)
	got, err := backup.Read(made, backup.Default)
	require.NoError(t, err)
	require.Empty(t, got.Missing)
	require.Len(t, got.Photos, largekit.Photos(2))
	require.Equal(t, want.Photos, got.Photos)
	require.Equal(t, kitfile.Save(want.Kit), kitfile.Save(got.Kit))
}

func backupOf(t *testing.T, kit fieldkit.Kit) []byte {
	t.Helper()
	photos := map[string]journal.Blob{}
	for i := range largekit.Photos(10) {
		photo := largekit.Photo(i)
		photos[photo.Hash] = photo
	}
	var file bytes.Buffer
	_, err := backup.Write(&file, kit, func(hash string) (journal.Blob, error) { return photos[hash], nil }, fieldkit.Moment{})
	require.NoError(t, err)
	return file.Bytes()
}
