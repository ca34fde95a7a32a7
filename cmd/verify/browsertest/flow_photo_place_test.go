//go:build browser

package browsertest

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/picture"
)

// Only who asks for it keeps the place in a photo, and then nothing else the camera
// wrote into it.
func TestPhotoKeepsItsPlaceWhenAsked(t *testing.T) {
	camera := cameraPhoto(t)
	want, known := picture.PlaceOf(camera)
	require.True(t, known)
	file := filepath.Join(t.TempDir(), "IMG_2042.JPG")
	require.NoError(t, os.WriteFile(file, camera, 0o644))

	v := withDemo(t, "/kit")
	v.Tap("button:Keep it")
	v.WaitFor("the choice", `Array.from(document.querySelectorAll('button')).find((b) => b.innerText === 'Keep it')?.getAttribute('aria-pressed') === 'true'`)
	v.Go("/log/failure?position=hobnail-front-brake-pads")
	v.Fill("What broke", "pads down to the rivets")
	v.Upload("css:main input[type=file]", file)
	v.WaitFor("the photo", `document.querySelector('.photos img')?.naturalWidth > 0`)
	v.Tap("button:Save")
	v.At("/log")
	v.See("Pads down to the rivets")

	kept := v.photoInBackup()
	at, known := picture.PlaceOf(kept)
	require.True(t, known)
	assert.Equal(t, want, at)
	assert.False(t, bytes.Contains(kept, []byte("Inverted Pines")), "the camera's own mark")
	bare, err := picture.Bare(kept)
	require.NoError(t, err)
	assert.Less(t, len(kept)-len(bare), 200, "a place and nothing else")
}
