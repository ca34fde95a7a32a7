//go:build browser

package browsertest

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/binary"
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
)

// At camp: a failure with the place from the device and a photo from the camera.
// The photo is shrunk and carries neither position nor camera; a phone that dies
// before saving loses neither.
func TestLogFailureWithPhotoAndPlace(t *testing.T) {
	v := withDemo(t, "/log/failure?position=hobnail-front-brake-pads")
	require.Equal(t, 1, v.stockOf("front brake pads, Dunmarl"))
	v.Go("/log/failure?position=hobnail-front-brake-pads")
	v.Fill("What broke", "pads down to the rivets")
	v.Fill("Place", "second ford below the mine")
	v.StandAt(41.8527004, -118.2213004, 8)
	v.Tap("button:Take this phone's position")
	v.See("41.85270° N 118.22130° W, within 8 m (26 ft)")

	photo, camera := filepath.Join(t.TempDir(), "IMG_2041.JPG"), cameraPhoto(t)
	require.NoError(t, os.WriteFile(photo, camera, 0o644))
	require.True(t, bytes.Contains(camera, []byte("Exif\x00\x00")))
	v.Upload("css:main input[type=file]", photo)
	v.WaitFor("the photo", `document.querySelector('.photos img')?.naturalWidth > 0`)
	v.Choose("Take from stock", "front brake pads, Dunmarl")
	v.Fill("Time lost", "2:30")

	v.Rest()
	v.DieAndWake("/log/failure?position=hobnail-front-brake-pads")
	v.See("This is what you typed earlier", "41.85270° N 118.22130° W", "front brake pads, Dunmarl")
	v.WaitFor("the photo", `document.querySelector('.photos img')?.naturalWidth > 0`)
	assert.Equal(t, "pads down to the rivets", v.Value("What broke"))
	assert.Equal(t, "2:30", v.Value("Time lost"))
	v.Fill("Fix", "spare pads fitted")
	v.Tap("button:Save")
	v.At("/log")
	v.See("Pads down to the rivets")
	v.DieAndWake("/log")

	v.Tap("link:Pads down to the rivets")
	v.See("41.85270° N 118.22130° W, within 8 m (26 ft)", "front brake pads, Dunmarl")
	assert.Equal(t, "second ford below the mine", v.Value("Place"))
	assert.Equal(t, "2 h 30 min", v.Value("Time lost"))
	v.WaitFor("the photo", `document.querySelector('.photos img')?.naturalWidth > 0`)
	assert.Equal(t, 0, v.stockOf("front brake pads, Dunmarl"))

	kept := v.photoInBackup()
	assert.Less(t, len(kept), len(camera)/3)
	for _, trace := range []string{"Exif", "Inverted Pines", "http://ns.adobe.com"} {
		assert.False(t, bytes.Contains(kept, []byte(trace)), "the photo still says %q", trace)
	}
	shape, kind, err := image.DecodeConfig(bytes.NewReader(kept))
	require.NoError(t, err)
	assert.Equal(t, "jpeg", kind)
	// It was taken on its side: 2400 × 1800 turned upright, the longer side cut to 1280.
	assert.Equal(t, []int{960, 1280}, []int{shape.Width, shape.Height})

	// Shown or not, a photo has the same room: nothing below it moves when it comes.
	const room = `document.querySelector('.photos').getBoundingClientRect().height`
	v.Go("/log")
	v.Tap("link:Pads down to the rivets")
	v.WaitFor("the photo", `document.querySelector('.photos img')?.naturalWidth > 0`)
	shown := ask[float64](v.phone, room)
	v.inDatabase(demoDatabase, `tx.objectStore('blobs').clear();`)
	v.DieAndWake("/log")
	v.Tap("link:Pads down to the rivets")
	v.See("This photo cannot be read.")
	assert.InDelta(t, shown, ask[float64](v.phone, room), 1)
	v.Tap("button:Remove photo 1")
	v.SeeNot("This photo cannot be read.")
}

// Something broke, the hands are cold: three taps from any screen keep an entry, and
// it survives the browser's death at once. With the phone's position and a photo added
// it takes less than 20 seconds of taps all the same.
func TestLogFailureInThreeTaps(t *testing.T) {
	v := withDemo(t, "/pack")
	v.StandAt(41.8527004, -118.2213004, 8)
	photo := filepath.Join(t.TempDir(), "IMG_2042.JPG")
	require.NoError(t, os.WriteFile(photo, cameraPhoto(t), 0o644))
	before := v.failures()
	v.Go("/pack")
	start := ask[float64](v.phone, "performance.now()")
	v.Tap("link:Log")
	v.See("What broke on")
	v.Tap("css:main .suspects a") // the likeliest
	v.See("How did it fail?")
	v.Tap("button:Seized")
	v.See("Logged: ", "seized") // kept
	v.Tap("button:Take this phone's position")
	v.See("41.85270° N 118.22130° W, within 8 m (26 ft)")
	v.Upload("css:main input[type=file]", photo)
	v.WaitFor("the photo", `document.querySelector('.photos img')?.naturalWidth > 0`)
	v.Tap("button:Save")
	v.At("/log")
	took := (ask[float64](v.phone, "performance.now()") - start) / 1000
	t.Logf("a failure with position and photo: %.1f s", took)
	assert.Less(t, took, 20.0)

	v.DieAndWake("/log")
	assert.Equal(t, before+1, v.failures())
	v.Go("/log/broke?position=hobnail-front-brake-pads")
	v.Tap("button:Cut or torn")
	v.See("Logged: ")
	v.DieAndWake("/log")
	assert.Equal(t, before+2, v.failures(), "what was said to be logged outlives the browser")
}

// StandAt lets the device know where it is, and the page ask it.
func (v *traveller) StandAt(lat, lon, accuracy float64) {
	v.t.Helper()
	require.NoError(v.t, v.page.Do(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, browser.SetPermission, browser.SetPermissionParams{
			Permission: &browser.PermissionDescriptor{Name: "geolocation"}, Setting: browser.PermissionSettingGranted})
		if err != nil {
			return err
		}
		_, err = cdp.Call(ctx, target, emulation.SetGeolocationOverride, emulation.SetGeolocationOverrideParams{
			Latitude: &lat, Longitude: &lon, Accuracy: &accuracy})
		return err
	}))
}

// photoInBackup makes a backup and takes the one photo out of it.
func (v *traveller) photoInBackup() []byte {
	v.t.Helper()
	v.Go("/kit")
	v.See("Ready for no signal")
	_, archive := v.Saved("button:Make a backup")
	z, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	require.NoError(v.t, err)
	var photos [][]byte
	for _, f := range z.File {
		if strings.HasPrefix(f.Name, "photos/") {
			r, err := f.Open()
			require.NoError(v.t, err)
			content, err := io.ReadAll(r)
			require.NoError(v.t, err)
			photos = append(photos, content)
		}
	}
	require.Len(v.t, photos, 1)
	return photos[0]
}

// cameraPhoto is a large picture as a phone's camera writes it: lying on its side,
// with the place in it. Tags by CIPA DC-008 (Exif 2.32): orientation 0x0112,
// software 0x0131, GPS 0x8825 with latitude 1, 2 and longitude 3, 4.
func cameraPhoto(t *testing.T) []byte {
	t.Helper()
	picture := image.NewRGBA(image.Rect(0, 0, 2400, 1800))
	for y := range 1800 {
		for x := range 2400 {
			grain := uint8((x*2654435761 + y*40503) >> 7) // as little alike as gravel
			picture.SetRGBA(x, y, color.RGBA{uint8(x/16) + grain/8, uint8(y/12) + grain/8, grain, 255})
		}
	}
	var plain bytes.Buffer
	require.NoError(t, jpeg.Encode(&plain, picture, &jpeg.Options{Quality: 92}))

	le := binary.LittleEndian
	entry := func(b []byte, tag, kind uint16, count, value uint32) []byte {
		return le.AppendUint32(le.AppendUint32(le.AppendUint16(le.AppendUint16(b, tag), kind), count), value)
	}
	const software = "Inverted Pines 4\x00\x00"
	const textAt, gpsAt = 8 + 2 + 3*12 + 4, 8 + 2 + 3*12 + 4 + len(software)
	const latAt, lonAt = gpsAt + 2 + 4*12 + 4, gpsAt + 2 + 4*12 + 4 + 24
	tiff := []byte("II*\x00\x08\x00\x00\x00")
	tiff = le.AppendUint16(tiff, 3)
	tiff = entry(tiff, 0x0112, 3, 1, 6)
	tiff = entry(tiff, 0x0131, 2, uint32(len(software)), textAt)
	tiff = entry(tiff, 0x8825, 4, 1, uint32(gpsAt))
	tiff = append(le.AppendUint32(tiff, 0), software...)
	tiff = le.AppendUint16(tiff, 4)
	tiff = entry(tiff, 1, 2, 2, 'N')
	tiff = entry(tiff, 2, 5, 3, uint32(latAt))
	tiff = entry(tiff, 3, 2, 2, 'W')
	tiff = entry(tiff, 4, 5, 3, uint32(lonAt))
	tiff = le.AppendUint32(tiff, 0)
	for _, n := range []uint32{41, 1, 51, 1, 972, 100, 118, 1, 13, 1, 1668, 100} {
		tiff = le.AppendUint32(tiff, n)
	}
	segment := append([]byte("Exif\x00\x00"), tiff...)
	head := []byte{0xff, 0xd8, 0xff, 0xe1}
	head = binary.BigEndian.AppendUint16(head, uint16(len(segment)+2))
	return append(append(head, segment...), plain.Bytes()[2:]...)
}

// The log comes out as tables and waypoints that other programs read.
func TestExports(t *testing.T) {
	v := withDemo(t, "/log")
	kit := data.DemoKit()
	for name, rows := range map[string]int{"Failures as CSV": kit.Failures.Len(), "Readings as CSV": kit.Inspections.Len()} {
		file, content := v.Saved("button:" + name)
		assert.Equal(t, ".csv", filepath.Ext(file))
		records, err := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(content, []byte("\ufeff")))).ReadAll()
		require.NoError(t, err, name)
		assert.Len(t, records, rows+1, name)
		assert.Greater(t, len(records[0]), 5, name)
	}

	file, content := v.Saved("button:Places as GPX")
	assert.Equal(t, "failures.gpx", file)
	var gpx struct {
		XMLName xml.Name `xml:"http://www.topografix.com/GPX/1/1 gpx"`
		Version string   `xml:"version,attr"`
		Creator string   `xml:"creator,attr"`
		Points  []struct {
			Lat  float64 `xml:"lat,attr"`
			Lon  float64 `xml:"lon,attr"`
			Name string  `xml:"name"`
			Time string  `xml:"time"`
		} `xml:"wpt"`
	}
	require.NoError(t, xml.Unmarshal(content, &gpx))
	assert.Equal(t, "1.1", gpx.Version)
	assert.NotEmpty(t, gpx.Creator)
	places := map[string]bool{}
	for _, f := range kit.Failures.All() {
		if f.Place.HasFix() {
			places[fmt.Sprintf("%.6f %.6f", float64(f.Place.Lat)/1e6, float64(f.Place.Lon)/1e6)] = true
		}
	}
	require.NotEmpty(t, places)
	found := map[string]bool{}
	for _, p := range gpx.Points {
		found[fmt.Sprintf("%.6f %.6f", p.Lat, p.Lon)] = true
		assert.NotEmpty(t, p.Name)
	}
	assert.Equal(t, places, found)
}
