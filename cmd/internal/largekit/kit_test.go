package largekit

import (
	"bytes"
	"image/jpeg"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit/kitfile"
)

func TestKitIsSoundAndOfItsSize(t *testing.T) {
	for _, size := range []int{1, 10} {
		kit := Kit(size)
		require.Empty(t, kitfile.Check(kit))
		require.Empty(t, kitfile.CheckAgainst(kit, data.Catalog()))
		require.Equal(t, kitfile.Save(kit), kitfile.Save(Kit(size)), "the same each time")
		assert.Len(t, kit.Parts.Slice(), 100*size)
		assert.Len(t, kit.Links.Slice(), 1000*size)
		assert.Equal(t, 50*size, kit.Failures.Len()+kit.Inspections.Len())
		photos := 0
		for _, f := range kit.Failures.All() {
			photos += len(f.Photos)
		}
		assert.Equal(t, Photos(size), photos)
	}
	assert.Equal(t, []int{2, 6, 20}, []int{Rigs(1), Rigs(10), Rigs(100)})
}

func TestPhotosArePictures(t *testing.T) {
	a, b := Photo(0), Photo(1)
	require.NotEqual(t, a.Hash, b.Hash)
	_, err := jpeg.Decode(bytes.NewReader(a.Data))
	require.NoError(t, err)
	assert.InDelta(t, 150_000, len(a.Data), 60_000)
}
