package backup_test

import (
	"fmt"
	"io"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/merge"
)

// BenchmarkDemo makes the backup of the demo kit, without photos and with one of 300 kB
// at each log entry.
func BenchmarkDemo(b *testing.B) {
	kit := data.DemoKit()
	rnd := rand.NewChaCha8([32]byte{1})
	pictures := map[string]journal.Blob{}
	photo := func(hash string) (journal.Blob, error) { return pictures[hash], nil }
	for _, photos := range []int{0, kit.Failures.Len()} {
		for i := range photos {
			content := make([]byte, 300_000)
			_, _ = rnd.Read(content) // never fails
			blob := journal.NewBlob("image/jpeg", content)
			pictures[blob.Hash] = blob
			kit.Failures.Ref(i).Photos = []string{blob.Hash}
		}
		b.Run(fmt.Sprint(photos, " photos"), func(b *testing.B) {
			for b.Loop() {
				missing, err := backup.WriteAll(io.Discard, merge.Replica{Kit: kit, History: &merge.History{}}, backup.OneByOne(photo), made, nil)
				require.NoError(b, err)
				require.Empty(b, missing)
			}
		})
	}
}
