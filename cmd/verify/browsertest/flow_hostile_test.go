//go:build browser

package browsertest

import (
	"fmt"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hostile are texts that no field of any form may keep.
var hostile = []struct{ name, text, says string }{
	{"null", "a\x00b", "U+0000"},
	{"writing turned over", "Front \u202egnp.elxa", "U+202E"},
	{"right-to-left mark", "\u200f=HYPERLINK(\"http://x\")", "U+200F"},
	{"blank without width", "<script>document.title='ran'</script>\u200b", "U+200B"},
	{"escape", "\x1b[2J<img src=x onerror=\"document.title='ran'\">", "U+001B"},
	{"much too long", strings.Repeat("Ж", 15_000), "15000 characters, and 10000 of them fit here"},
}

// writingForms are all screens with lines to write in, and the button that saves each.
var writingForms = []struct{ path, save string }{
	{"/kit", "Save name and currency"},
	{"/log/failure?position=hobnail-front-brake-pads", "Save"},
	{"/log/reading?position=hobnail-front-brake-pads", "Save"},
	{"/pack/trip/edit", "Save trip"},
	{"/pack/trip/edit?id=2026-12-widows-rib", "Save trip"},
	{"/pack/stock/edit?what=spares&id=spare-ujoint-1350", "Save"},
	{"/pack/stock/edit?what=consumables", "Save"},
	{"/pack/stock/edit?what=tools", "Save"},
	{"/pack/stock/edit?what=bins&id=h-cab-box", "Save"},
	{"/rig/donor", "Save donor"},
	{"/rig/edit", "Save rig"},
	{"/rig/edit?id=hobnail", "Save rig"},
	{"/rig/link/edit?part=pads-front", "Save interchange"},
	{"/rig/part/edit?id=pads-front&position=hobnail-front-brake-pads", "Save part"},
	{"/rig/part/edit?position=hobnail-front-brake-pads", "Save part"},
	{"/rig/position/edit?rig=hobnail", "Save position"},
	{"/rig/position/edit?id=hobnail-front-brake-pads", "Save position"},
	{"/rig/systems?rig=hobnail", "Add system"},
	{"/rig/drive/edit?rig=hobnail", "Save driveline"},
	{"/rig/prior?kind=relay", "Save as your own figures"},
	{"/pack/cost?trip=2026-12-widows-rib&position=hobnail-starter", "Save what it costs"},
	{"/counter/visit?store=farm-ranch", "Save visit"},
}

// linesOfForm are the fields of the form on the screen that are written in.
const linesOfForm = `Array.from(document.querySelectorAll('main .field input[type=text], main .field textarea'))`

// Every line of every form takes what it may not keep without a stir, says so, still
// shows it, and nothing of it reaches the kit.
func TestHostileTexts(t *testing.T) {
	v := withDemo(t, "/log")
	before := v.OnDisk(demoDatabase)
	for i, form := range writingForms {
		v.Go(form.path)
		v.WaitFor("the form of "+form.path, linesOfForm+`.length > 0`)
		lines := ask[int](v.phone, linesOfForm+`.length`)
		for j, h := range hostile {
			if (i+j)%3 != 0 {
				continue // in turn, so that each text is put into every third form
			}
			v.Run(fmt.Sprintf(`%s.forEach((line) => { line.value = %s; line.dispatchEvent(new Event('input', { bubbles: true })); })`, linesOfForm, quoted(h.text)))
			v.Settle()
			// A press that came before what was typed is pressed again.
			soon(t, fmt.Sprintf("a word on %s at each line of %s", h.name, form.path), func() bool {
				v.press(form.save)
				v.Settle()
				return ask[bool](v.phone, fmt.Sprintf(`%s.every((line) => line.closest('.field').querySelector('.wrong')) && %s.some((line) => line.closest('.field').querySelector('.wrong').innerText.includes(%s))`,
					linesOfForm, linesOfForm, quoted(h.says)))
			})
			said := ask[string](v.phone, linesOfForm+`.map((line) => line.closest('.field').querySelector('.wrong').innerText).join('\n')`)
			assert.Contains(t, said, h.says, form.path)
			assert.NotRegexp(t, `strconv|panic|<nil>|%!`, said)
			assert.False(t, strings.Contains(said, h.text), "what is not seen is shown")
			assert.True(t, ask[bool](v.phone, fmt.Sprintf(`%s.every((line) => line.value === %s)`, linesOfForm, quoted(h.text))), "%s: %s is still there", form.path, h.name)
			assert.Equal(t, form.path, v.Path())
		}
		assert.NotEqual(t, "ran", ask[string](v.phone, "document.title"))
		t.Logf("%s: %d lines", form.path, lines)
	}
	assert.Equal(t, before, v.OnDisk(demoDatabase), "nothing of it was written")
}

// askingScreens are screens with lines to write in that save nothing.
var askingScreens = []string{"/take", "/counter", "/counter/measure?kind=tapered", "/counter/table?name=ball_bearings", "/repair", "/repair/help?rig=hobnail",
	"/repair/limp?rig=hobnail", "/repair/torque", "/counter/fit?position=hobnail-front-brake-pads&part=pads-front"}

// linesOfScreen are all lines of a screen that are written in, but for choosing files.
const linesOfScreen = `Array.from(document.querySelectorAll('main input, main textarea')).filter((line) => ['text', 'search', 'textarea'].includes(line.type))`

// Screens that only answer take hostile texts without a stir too: the text stands as it
// was typed, nothing of it runs or becomes part of the page, and every button may be
// pressed.
func TestHostileQuestions(t *testing.T) {
	v := withDemo(t, "/log")
	before := v.OnDisk(demoDatabase)
	for i, path := range askingScreens {
		v.Go(path)
		v.WaitFor("a line on "+path, linesOfScreen+`.length > 0`)
		for j, h := range hostile {
			if (i+j)%2 != 0 {
				continue // in turn
			}
			v.Run(fmt.Sprintf(`%s.forEach((line) => { line.value = %s; line.dispatchEvent(new Event('input', { bubbles: true })); })`, linesOfScreen, quoted(h.text)))
			v.Settle()
			if path == "/take" {
				v.press("Open it")
				v.Settle()
			}
			assert.True(t, ask[bool](v.phone, fmt.Sprintf(`%s.some((line) => line.value === %s)`, linesOfScreen, quoted(h.text))), "%s: %s is still there", path, h.name)
			assert.NotRegexp(t, `strconv|panic|<nil>|%!|undefined`, v.Text(), "%s with %s", path, h.name)
			assert.False(t, ask[bool](v.phone, `Boolean(document.querySelector('main script, main img[src=x]'))`), "%s with %s", path, h.name)
			require.NotEqual(t, "ran", ask[string](v.phone, "document.title"), "%s with %s", path, h.name)
		}
		t.Logf("%s: %d lines", path, ask[int](v.phone, linesOfScreen+`.length`))
	}
	v.Go("/log")
	v.See("Log")
	assert.Equal(t, before, v.OnDisk(demoDatabase), "nothing was written")
}

// press presses a button wherever it is by now: words that come and go above it move it
// about.
func (v *traveller) press(label string) {
	v.t.Helper()
	v.Run(fmt.Sprintf(`Array.from(document.querySelectorAll('main button')).find((b) => b.innerText.trim() === %s)?.click()`, quoted(label)))
}

// What is not seen can be taken out with one tap; the rest is kept as it was written.
func TestTakeOutWhatIsNotSeen(t *testing.T) {
	v := withDemo(t, "/rig/donor")
	v.put("Make", "Kes\u202etrel")
	v.put("Model", "Torrack\u200b 30")
	v.Tap("button:Save donor")
	assert.Contains(t, v.wrong("Make"), "Kes⟨U+202E⟩trel")
	v.Tap("button:Take out what is not seen")
	v.WaitFor("the make", `Array.from(document.querySelectorAll('main label')).find((l) => l.innerText.trim() === 'Make').control.value === 'Kestrel'`)
	v.Tap("button:Take out what is not seen")
	v.WaitFor("the model", `Array.from(document.querySelectorAll('main label')).find((l) => l.innerText.trim() === 'Model').control.value === 'Torrack 30'`)
	v.Tap("button:Save donor")
	v.See("Saved donor: Kestrel Torrack 30")
}

// Ten megabytes pasted into one line are refused with words and do not stop the app.
func TestTenMegabytesInOneLine(t *testing.T) {
	v := withDemo(t, "/rig/donor")
	v.Run(`(() => {
		const line = Array.from(document.querySelectorAll('main label')).find((l) => l.innerText.trim() === 'Make').control;
		line.value = 'x'.repeat(10_000_000);
		line.dispatchEvent(new Event('input', { bubbles: true }));
	})()`)
	assert.Contains(t, v.wrong("Make"), "of them fit here")
	assert.Equal(t, 10_000_000, ask[int](v.phone, `Array.from(document.querySelectorAll('main label')).find((l) => l.innerText.trim() === 'Make').control.value.length`))
	v.Go("/log")
	v.See("Log")
}

// Whatever an address says, its screen comes up with a way on and writes nothing.
func TestHostileAddresses(t *testing.T) {
	v := withDemo(t, "/log")
	before := v.OnDisk(demoDatabase)
	paths := append(everyRoute(t), "/no/such/screen")
	names := []string{"id", "part", "position", "rig", "what", "q", "show", "trip", "type", "item", "kind", "donor", "guide", "run", "symptom", "step", "link",
		"broken", "name", "store", "page", "designation", "stop", "clear", "sign", "answers", "list", "thread", "grade", "first", "x"}
	for j, bad := range [][2]string{
		{"ten kilobytes", url.QueryEscape(strings.Repeat("kestrel ", 1250))},
		{"null and no text", "%00%C3%28%FF"},
		{"turned writing", "%E2%80%AE%E2%80%8Fabc"},
		{"script", url.QueryEscape(`"><script>document.title='ran'</script><img src=x onerror="document.title='ran'">`)},
		{"path", url.QueryEscape("../../rig?id=x#y")},
	} {
		name, value := bad[0], bad[1]
		var pairs []string
		for _, n := range names {
			pairs = append(pairs, n+"="+value)
		}
		for i, path := range paths {
			if (i+j)%4 != 0 && name != "script" {
				continue // in turn; a script is tried on each
			}
			v.Go(path + "?" + strings.Join(pairs, "&"))
			v.WaitFor(fmt.Sprintf("a way on from %s with %s", path, name), `document.querySelectorAll('nav a').length === 5 && document.querySelector('main').innerText.trim().length > 20`)
			said := v.Text()
			assert.NotRegexp(t, `undefined|<nil>|NaN|%!|panic`, said, "%s with %s", path, name)
			require.NotEqual(t, "ran", ask[string](v.phone, "document.title"), "%s with %s", path, name)
			assert.False(t, ask[bool](v.phone, `Boolean(document.querySelector('main script, main img[src=x]'))`), "%s with %s", path, name)
		}
	}
	for _, ending := range []string{"?id=%", "?%ZZ=1&id=%zz", "?id=hobnail;drop", "?id=hobnail&id=wicket"} {
		v.Go("/rig/position" + ending)
		v.WaitFor("a way on from "+ending, `document.querySelectorAll('nav a').length === 5 && document.querySelector('main').innerText.trim().length > 20`)
	}
	for _, stray := range []string{"/take#%", "/take#T1%zz%E2%80", "/rig/%", "/%zz/%e2%28", "/counter?q=%#%"} {
		v.Open(stray) // Go refuses such an address
		v.WaitFor("a way on from "+stray, `document.querySelectorAll('nav a').length === 5 && document.querySelector('main').innerText.trim().length > 20`)
		v.Run("location.hash = 'again%'") // and while the program runs
		v.Settle()
		v.Go("/log")
	}
	v.Open("/rig/position#" + strings.Repeat("%00%E2%80%AE", 100))
	v.See("Position")
	v.Open("/rig/position?id=" + strings.Repeat("x", 10_000))
	v.See("Rig")
	assert.Equal(t, before, v.OnDisk(demoDatabase), "nothing was written")
}
