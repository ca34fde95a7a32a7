//go:build browser

package browsertest

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/chromium"
)

// backUp makes a backup on the screen Kit and gives its name and bytes.
func (v *traveller) backUp() (string, []byte) {
	v.t.Helper()
	v.Go("/kit")
	v.See("Ready for no signal")
	name, whole := v.Saved("button:Make a backup")
	v.See(name + " is in your downloads.")
	return name, whole
}

// openBackup chooses a file on the screen Kit.
func (v *traveller) openBackup(name string, content []byte) {
	v.t.Helper()
	v.Go("/kit")
	v.See("Ready for no signal")
	file := filepath.Join(v.t.TempDir(), name)
	require.NoError(v.t, os.WriteFile(file, content, 0o644))
	v.Upload("css:#file-restore", file)
}

// kitIn is the kit file in a backup, for comparing.
func kitIn(t *testing.T, archive []byte) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	require.NoError(t, err)
	f, err := z.Open("kit.json")
	require.NoError(t, err)
	defer f.Close()
	text, err := io.ReadAll(f)
	require.NoError(t, err)
	return string(text)
}

func (v *traveller) noteAt(position, note string) {
	v.t.Helper()
	v.Go("/rig/position/edit?id=" + position)
	v.See("Save position")
	v.Fill("Note", note)
	v.Tap("button:Save position")
	v.At("/rig/position?id=" + position)
	v.See(note)
}

// Two phones with the same kit edit it, without signal, and merge each other's backup:
// both ways the same kit. What both changed is shown before and after, the value that
// lost can be taken, the merge is taken back as one.
func TestTwoPhonesMerge(t *testing.T) {
	mine, theirs := withDemo(t, "/rig"), withDemo(t, "/rig")
	mine.noteAt("hobnail-front-brake-pads", "squeal when cold")
	theirs.noteAt("hobnail-starter", "clicks twice")
	theirs.noteAt("hobnail-front-brake-pads", "glazed, sanded down")
	_, fromMine := mine.backUp()
	_, fromTheirs := theirs.backUp()
	require.NotEqual(t, kitIn(t, fromMine), kitIn(t, fromTheirs))

	mine.openBackup("theirs.zip", fromTheirs)
	mine.See("It is a copy of this kit.", "Position “starter motor”: note", "Both changed; the later one wins", "“glazed, sanded down” over yours “squeal when cold”")
	assert.NotContains(t, mine.Text(), "Add beside mine", "its rigs are in the kit already")
	mine.Tap("button:Merge with mine")
	mine.See("Merged with theirs.zip", "Left open by merging", "The other: “squeal when cold”")
	theirs.openBackup("mine.zip", fromMine)
	theirs.See("It is a copy of this kit.", "“glazed, sanded down” over theirs “squeal when cold”")
	theirs.Tap("button:Merge with mine")
	theirs.See("Merged with mine.zip", "Left open by merging")

	_, a := mine.backUp()
	_, b := theirs.backUp()
	require.Equal(t, kitIn(t, a), kitIn(t, b), "either way the same kit")
	mine.openBackup("again.zip", b)
	mine.See("says nothing that yours does not")
	mine.Tap("button:Leave everything as it is")

	mine.Go("/kit")
	mine.See("Left open by merging")
	mine.Tap("button:Take “squeal when cold”")
	mine.See("Took the other value")
	mine.SeeNot("Left open by merging")
	mine.Go("/rig/position?id=hobnail-front-brake-pads")
	mine.See("squeal when cold")

	// The value that loses is taken before merging, by a tick.
	third := withDemo(t, "/rig")
	third.noteAt("hobnail-front-brake-pads", "dragging on the left")
	third.openBackup("mine.zip", fromMine)
	third.See("over theirs “squeal when cold”")
	third.Tap("checkbox:Take “squeal when cold” instead")
	third.WaitFor("the tick", `document.querySelector('main [role=checkbox][aria-checked=true]')`)
	third.Tap("button:Merge with mine")
	third.See("Merged with mine.zip, with 1 other value taken")
	third.SeeNot("Left open by merging")
	third.Go("/rig/position?id=hobnail-front-brake-pads")
	third.See("squeal when cold")

	theirs.Reload()
	theirs.Go("/kit")
	theirs.See("Left open by merging")
	theirs.Fold("Latest changes")
	theirs.See("Merged with mine.zip")
	theirs.Tap("button:Kit before")
	theirs.See("Back to the kit before")
	theirs.SeeNot("Left open by merging")
	_, c := theirs.backUp()
	require.Equal(t, kitIn(t, fromTheirs), kitIn(t, c), "as before the merge")
}

// A copy that says nothing new brings the photos that this phone has lost, and sound ones in
// place of damaged.
func TestPhotosComeInByMerging(t *testing.T) {
	v := withDemo(t, "/log")
	for _, shade := range []uint8{40, 200} {
		v.Go("/log/failure?position=hobnail-front-brake-pads")
		what := fmt.Sprintf("shade %d", shade)
		v.Fill("What broke", what)
		var picture bytes.Buffer
		shades := image.NewGray(image.Rect(0, 0, 32, 32))
		shades.Pix[0] = shade
		require.NoError(t, png.Encode(&picture, shades))
		file := filepath.Join(t.TempDir(), "photo.png")
		require.NoError(t, os.WriteFile(file, picture.Bytes(), 0o644))
		v.Upload("css:main input[type=file]", file)
		v.WaitFor("the photo", `document.querySelector('.photos img')?.naturalWidth > 0`)
		v.Tap("button:Save")
		v.At("/log")
		v.See(strings.ToUpper(what[:1]) + what[1:])
	}
	name, content := v.backUp()
	v.inDatabase(demoDatabase, `
		const photos = tx.objectStore('blobs');
		photos.getAll().onsuccess = (event) => {
			const [lost, damaged] = event.target.result;
			photos.delete(lost.hash);
			damaged.data[0] ^= 1;
			photos.put(damaged);
		};`)
	v.openBackup(name, content)
	v.See("says nothing that yours does not, but has 2 photos that this phone has not, or has damaged")
	v.Tap("button:Take in the photos")
	v.See("Merged with ")
	v.WaitFor("every photo, with the bytes of its name", `new Promise((done, failed) => {
		const open = indexedDB.open('`+demoDatabase+`');
		open.onsuccess = () => {
			const db = open.result;
			db.transaction('blobs').objectStore('blobs').getAll().onsuccess = async (event) => {
				db.close();
				const sums = await Promise.all(event.target.result.map((photo) => crypto.subtle.digest('SHA-256', photo.data)));
				done(sums.length > 1 && sums.every((sum, i) =>
					[...new Uint8Array(sum)].map((b) => b.toString(16).padStart(2, '0')).join('') === event.target.result[i].hash));
			};
		};
		open.onerror = () => failed(open.error);
	})`)
}

// The rig of another crew's backup stands beside one's own, marked as theirs.
func TestFriendsRig(t *testing.T) {
	friend := withDemo(t, "/rig")
	_, archive := friend.backUp()

	v := away(t)
	v.Open("/rig")
	v.Tap("button:Begin with my rig")
	v.See("My rig", "Counter-ready")
	v.openBackup("hobnail.zip", archive)
	v.See("It is another crew's kit.", "Whose they are")
	assert.NotContains(t, v.Text(), "Merge with mine")
	v.Tap("checkbox:Hobnail")
	v.put("Whose they are", "Hobnail and\u202e Wicket")
	v.Tap("button:Add beside mine")
	assert.Contains(t, v.wrong("Whose they are"), "U+202E")
	v.Tap("button:Take out what is not seen")
	v.WaitFor("the owner", `Array.from(document.querySelectorAll('main label')).find((l) => l.innerText.trim() === 'Whose they are').control.value === 'Hobnail and Wicket'`)
	v.Tap("button:Add beside mine")
	v.At("/rig?rig=")
	v.See("Hobnail (Hobnail and Wicket)", "Counter-ready")
	v.Go("/rig/donors")
	v.See("Haulyard")
	v.Go("/log")
	assert.NotContains(t, v.Text(), "belt tensioner", "the log stays with them")
	v.Reload()
	v.Go("/rig")
	v.See("Hobnail (Hobnail and Wicket)")
	v.openBackup("hobnail.zip", archive)
	v.See("beside yours already")
}

// A square of dots on one phone, read by another program from a picture of the
// screen, opens the program on another phone that has no signal, shows what it is and
// adds it on a tap, not before.
func TestSquareIsScannedWithoutSignal(t *testing.T) {
	giver := withDemo(t, "/rig/position?id=hobnail-front-brake-pads")
	giver.Tap("link:Pass on to another phone")
	giver.At("/pass")
	giver.See("Hold it before the camera of the other phone")
	code := map[string]string{}
	for _, theme := range []string{"daylight", "night"} {
		giver.Run(`document.documentElement.dataset.theme = "` + theme + `"`)
		code[theme] = scan(t, giver)
	}
	require.Equal(t, code["daylight"], code["night"])
	link := code["daylight"]
	require.True(t, strings.HasPrefix(link, giver.server.URL("/take#")), link)

	taker := away(t)
	taker.Open("/take#" + link[strings.Index(link, "#")+1:len(link)-20])
	taker.See("Scan it once more") // on a phone with no kit too
	taker.Tap("link:Go on without it")
	taker.Tap("button:Begin with my rig")
	taker.See("My rig", "Counter-ready")
	before := taker.OnDisk(ownDatabase)
	taker.Open(strings.TrimPrefix(link, giver.server.URL("")))
	taker.See("Passed on to you", "It is not in your kit yet", "Number", "no rig, the part alone")
	require.Equal(t, before, taker.OnDisk(ownDatabase), "nothing is added without a tap")
	taker.Tap("button:Add it to my kit")
	taker.At("/counter/card")
	taker.See("counter card", "It is from a")
	taker.Open(strings.TrimPrefix(link, giver.server.URL("")))
	taker.See("Passed on to you")
	taker.Tap("button:Add it to my kit")
	taker.See("It is in your kit already")

	// In the demo kit it says where the thing would go, and opens one's own kit instead.
	taker.Go("/kit")
	taker.Tap("button:Look around in the demo kit")
	taker.See("Demo kit, all invented")
	taker.Open(strings.TrimPrefix(link, giver.server.URL("")))
	taker.See("Add it to the demo kit", "goes when it is thrown away")
	taker.Tap("button:Open my own kit first")
	taker.See("Passed on to you", "Add it to my kit")
	taker.SeeNot("Demo kit, all invented")

	taker.Open("/take#" + link[strings.Index(link, "#")+1:len(link)-20])
	taker.See("Scan it once more")
	taker.Go("/take?x=1")
	taker.See("paste the link you were sent")
	taker.Fill("Link", link)
	taker.Tap("button:Open it")
	taker.See("It is not in your kit yet")
}

// scan lets a decoder of QR codes look at the screen of phones with different dots to
// a point, where each module is a whole number of dots. It is shown the square alone:
// its search for one in a picture takes chance patterns of a large square for marks.
func scan(t *testing.T, v *traveller) (text string) {
	t.Helper()
	for _, ratio := range []float64{1.5, 2, 2.625, 3, 1} {
		require.NoError(t, v.Resize(chromium.PhoneWidth, chromium.PhoneHeight, ratio))
		v.Run(`dispatchEvent(new Event('resize'))`) // as zooming does, which this stands for
		v.WaitFor(fmt.Sprintf("whole dots at %g", ratio), `((square) => {
			const dots = square.getBoundingClientRect().width * devicePixelRatio / square.viewBox.baseVal.width;
			return devicePixelRatio === `+fmt.Sprint(ratio)+` && dots >= 1 && Math.abs(dots - Math.round(dots)) < 0.001;
		})(document.querySelector('svg.qr'))`)
		v.Run(`document.querySelector('svg.qr').scrollIntoView({ block: 'center' })`)
		v.Settle()
		read, err := decoded(t, v)
		require.NoError(t, err, "%g dots to a point, %d modules", ratio, ask[int](v.phone, `document.querySelector('svg.qr').viewBox.baseVal.width - 8`))
		t.Logf("%g dots to a point: read, %d modules", ratio, ask[int](v.phone, `document.querySelector('svg.qr').viewBox.baseVal.width - 8`))
		text = read
	}
	return text
}

// decoded takes a picture of the screen and reads the square cut out of it.
func decoded(t *testing.T, v *traveller) (string, error) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "screen.png")
	require.NoError(t, v.page.Screenshot(file))
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	img, _, err := image.Decode(f)
	require.NoError(t, err)
	at := ask[[]int](v.phone, `((r) => [r.left, r.top, r.right, r.bottom].map((n) => Math.round(n * devicePixelRatio)))(document.querySelector('svg.qr').getBoundingClientRect())`)
	square := img.(interface {
		SubImage(image.Rectangle) image.Image
	}).SubImage(image.Rect(at[0], at[1], at[2], at[3]).Inset(2)) // the white margin, without its edge
	bitmap, err := gozxing.NewBinaryBitmapFromImage(square)
	require.NoError(t, err)
	result, err := qrcode.NewQRCodeReader().Decode(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_PURE_BARCODE: true})
	if err != nil {
		return "", err
	}
	return result.GetText(), nil
}

// The reminder is one line on the rig's screen once something was written down and no
// backup was made; it leads to the backup with one tap and is gone after it.
func TestReminderOfTheBackup(t *testing.T) {
	v := away(t)
	v.Open("/rig")
	v.Tap("button:Begin with my rig")
	v.See("My rig", "Counter-ready")
	assert.NotContains(t, v.Text(), "no backup", "nothing is lost yet")
	v.Go("/rig/edit")
	v.See("Save rig")
	v.Fill("Name", "Bramble")
	v.Tap("button:Save rig")
	v.See("Counter-ready")
	v.Go("/rig")
	v.See("This browser may clear the kit, and there is no backup of it.")
	v.Go("/counter")
	assert.NotContains(t, v.Text(), "may clear the kit", "not on every screen")
	v.Go("/rig")
	v.Tap("link:Back up")
	v.At("/kit?first=backup")
	v.Run(`(() => {
		navigator.canShare = () => true;
		navigator.share = () => Promise.reject(new DOMException('closed by the person', 'AbortError'));
	})()`)
	v.Tap("button:Make a backup")
	v.See("Not saved: the share sheet was closed.", "No backup was made on this phone yet.", "there is no backup of it")
	v.Run(`navigator.share = () => Promise.reject(new DOMException('the press was too long ago', 'NotAllowedError'))`)
	_, sheetRefused := v.Saved("button:Make a backup")
	assert.Equal(t, "PK", string(sheetRefused[:2]), "where the sheet does not open, it is a download")
	v.See("is in your downloads.", "Last backup: today.")
	v.Run(`navigator.share = ({ files }) => { globalThis.handed = files[0]; return Promise.resolve(); }`)
	v.Tap("button:Make a backup")
	v.See(".zip was handed over.", "Last backup: today.")
	assert.Equal(t, "application/zip PK", ask[string](v.phone, `handed.text().then((text) => handed.type + ' ' + text.slice(0, 2))`))
	v.Run(`(() => { delete navigator.canShare; delete navigator.share; })()`)
	name, whole := v.Saved("button:Make a backup")
	v.See(name+" is in your downloads.", "Last backup: today.")
	var manifest struct {
		Version string
		Files   []struct{ Path string }
	}
	z, err := zip.NewReader(bytes.NewReader(whole), int64(len(whole)))
	require.NoError(t, err)
	f, err := z.Open("manifest.json")
	require.NoError(t, err)
	require.NoError(t, json.NewDecoder(f).Decode(&manifest))
	assert.Equal(t, "1.1", manifest.Version)
	v.Go("/rig")
	v.See("Counter-ready")
	v.SeeNot("may clear the kit")

	// On a new phone a backup that was restored is one of the day it was made.
	w := away(t)
	w.Open("/kit")
	w.Tap("button:Begin with my rig")
	w.See("My rig")
	w.Go("/kit")
	w.See("No backup was made on this phone yet.")
	file := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(file, whole, 0o600))
	w.Upload("css:#file-restore", file)
	w.See(name + " is whole.")
	w.Tap("button:Restore it in place of this kit")
	w.See("Restored "+name, "Last backup: today.")
	w.Go("/rig")
	w.See("Bramble")
	w.SeeNot("no backup")
	w.Tap("button:Undo")
	w.See("Taken back.")
	w.Go("/kit")
	w.See("No backup was made on this phone yet.")
}
