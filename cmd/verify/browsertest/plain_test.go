//go:build browser

package browsertest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/web"
)

const plainPads = "/plain" + padsCard

// WaitPlain waits until a plain page is kept under a path that begins so.
func (v *traveller) WaitPlain(path string) {
	v.t.Helper()
	v.WaitFor("the plain page "+path, fmt.Sprintf("fieldkitPlain.list().then((list) => list.some((page) => ('/' + page.path).startsWith(%q)))", path))
}

// plainText is what a kept plain page says; nothing if it is not kept.
func (v *traveller) plainText(path string) string {
	v.t.Helper()
	return ask[string](v.phone, fmt.Sprintf(`caches.open('trail-field-kit-plain:/').then((c) => c.match(%q)).then((r) => r ? r.text() : '')`, path))
}

// plainSays is a script that tells whether a kept plain page has words in its text.
func plainSays(path, words string) string {
	return fmt.Sprintf(`caches.open('trail-field-kit-plain:/').then((c) => c.match(%q)).then((r) => r.text()).then((text) => text.includes(%q))`, path, words)
}

// noteFirst makes every document say what it shows when it has been read and no
// program runs yet.
const noteFirst = `addEventListener('DOMContentLoaded', () => {
	globalThis.atFirst = { text: document.body.innerText, start: document.documentElement.dataset.start, over: Boolean(document.querySelector('#plain main')),
		ground: getComputedStyle(document.querySelector('#plain') || document.documentElement).backgroundColor };
})`

// Cards that were opened, packing lists, repairs under way and the emergency page are
// kept as plain pages, change with the kit, and go with it.
func TestPlainPagesFollowTheKit(t *testing.T) {
	v := withDemo(t, padsCard)
	v.See("Front brake pads")
	v.WaitPlain(plainPads)
	v.WaitPlain("/plain/emergency")
	v.WaitPlain("/plain/repair/run?id=run-wicket-u-joint")
	v.WaitFor("the list of them", plainSays("/plain/", "pads-front"))
	assert.Contains(t, v.plainText("/plain/emergency"), "6350 lb")
	assert.NotContains(t, v.plainText("/plain/"), "pack/trip")

	// A list that is planned is kept; a tick is taken over.
	v.Go(nextTrip)
	v.Tap("button:Plan the kit")
	v.See("packed")
	v.WaitPlain("/plain" + nextTrip)
	v.WaitFor("nothing ticked", plainSays("/plain"+nextTrip, ">0 of "))
	v.Tap("css:.packline .tick")
	v.WaitFor("the tick in the plain page", plainSays("/plain"+nextTrip, ">1 of "))

	// A figure of the rig changes on the emergency page, hostile words and all.
	v.Go("/rig/edit?id=hobnail")
	v.Fill("Figures", `weight loaded: 3.3 t`)
	v.Fill("Whom to call", `<img src=x onerror=alert(1)>: "'><script>globalThis.evil = 1</script>`)
	v.Tap("button:Save rig")
	v.See("Saved rig")
	v.WaitFor("the new figure", plainSays("/plain/emergency", "3.3 t"))
	assert.Contains(t, v.plainText("/plain/emergency"), "&lt;img src=x onerror=alert(1)&gt;")

	// They hold without the program, and nothing in them runs.
	v.VisitNoted("/plain/emergency")
	v.See("Stop at once", "3.3 t", "<img src=x onerror=alert(1)>")
	assert.Zero(t, ask[int](v.phone, "document.scripts.length + document.images.length"))
	assert.False(t, ask[bool](v.phone, "Boolean(globalThis.evil)"))
	v.runsNothing()
	v.Tap("link:All plain pages")
	v.See("Kept as plain pages")
	v.Tap("link:Front brake pads")
	v.See("Measure before you pay")
	v.Tap("link:Open it in the program")
	v.WaitKit()
	v.See("Share as text")

	// A demo that is thrown away takes its pages along.
	v.Go("/kit")
	v.Tap("button:Throw the demo away")
	v.See("Begin with my rig")
	v.WaitFor("the pages to go", "fieldkitPlain.list().then((list) => list.length === 0)")
}

// Plain pages go with what they show, and come back with it.
func TestPlainPagesGoWithWhatTheyShow(t *testing.T) {
	v := withDemo(t, "/rig/edit?id=wicket")
	const run = "/plain/repair/run?id=run-wicket-u-joint"
	v.WaitPlain(run)
	v.WaitFor("both rigs", plainSays("/plain/emergency", "<h2>Wicket"))
	v.WaitFor("it in the list", plainSays("/plain/", run))
	v.Tap("button:Delete rig")
	v.See("The rig goes with")
	v.Tap("css:.asks button.danger")
	v.See("Deleted rig: Wicket")
	v.WaitFor("its repair to go", fmt.Sprintf(`caches.open('trail-field-kit-plain:/').then((c) => c.match(%q)).then((r) => !r)`, run))
	v.WaitFor("it to go from the list", plainSays("/plain/", run)+".then((there) => !there)")
	v.WaitFor("its figures to go", plainSays("/plain/emergency", "<h2>Wicket")+".then((there) => !there)")
	v.Tap("button:Undo")
	v.WaitPlain(run)
	v.WaitFor("both rigs", plainSays("/plain/emergency", "<h2>Wicket"))
}

// What the system cleared of the plain pages is written again with the next change, and
// what is being written while a kit is thrown away does not outlive it.
func TestPlainPagesThatWereCleared(t *testing.T) {
	v := withDemo(t, padsCard)
	v.See("Front brake pads")
	v.WaitPlain(plainPads)
	v.WaitPlain("/plain/emergency")
	v.WaitFor("clearing", "fieldkitPlain.drop('plain/emergency').then(() => true)")
	v.Go("/counter/card?part=ujoint-1350")
	v.WaitPlain("/plain/counter/card?part=ujoint-1350")
	v.WaitPlain("/plain/emergency")
	v.WaitFor("the list of them", plainSays("/plain/", "ujoint-1350"))

	v.Run(`(() => {
		const [keep, gate] = [fieldkitPlain.keep, new Promise((open) => { globalThis.letGo = open; })];
		globalThis.pages = { begun: 0, written: 0 };
		fieldkitPlain.keep = async (...page) => {
			pages.begun++;
			await gate;
			await keep(...page);
			pages.written++;
		};
	})()`)
	v.Tap("button:Pin")
	v.Go("/counter/card?part=pads-front")
	v.WaitFor("a page to be written", "pages.begun > 0")
	v.Go("/kit")
	v.Tap("button:Throw the demo away")
	v.See("Begin with my rig")
	v.Run("letGo()")
	v.WaitFor("it to be written", "pages.written > 0")
	v.WaitFor("it to go", "fieldkitPlain.list().then((list) => list.length === 0)")
}

// Pages of a kit that was thrown away, left because the phone died over it, go at the next
// start.
func TestPlainPagesOfNoKit(t *testing.T) {
	v := away(t)
	v.Open("/rig")
	v.See("Begin with my rig")
	v.WaitFor("a page", `fieldkitPlain.keep('plain/emergency', 'mark', '<main class="plain-page"><p>of before</p></main>').then(() => true)`)
	v.Reload()
	v.See("Begin with my rig")
	v.WaitFor("it to go", "fieldkitPlain.list().then((list) => list.length === 0)")
}

// runsNothing checks that the policy of a plain page does what it says: no script, no
// style but its own, and nothing is loaded, not even from here.
func (v *traveller) runsNothing() {
	v.t.Helper()
	v.forgive = append(v.forgive, "Content Security Policy")
	assert.Equal(v.t, web.PlainPolicy(), ask[string](v.phone, `caches.open('trail-field-kit-plain:/').then((c) => c.match('/plain/emergency')).then((r) => r.headers.get('Content-Security-Policy'))`))
	v.Run(`(() => { const s = document.createElement('script'); s.textContent = 'globalThis.inlineRan = true'; document.head.append(s); })()`)
	v.Run(`(() => { const s = document.createElement('script'); s.src = '/start.js'; document.head.append(s); })()`)
	assert.False(v.t, ask[bool](v.phone, "Boolean(globalThis.inlineRan)"), "an inline script ran")
	assert.Equal(v.t, "refused", ask[string](v.phone, `fetch('/style.css').then(() => 'answered', () => 'refused')`))
	assert.Equal(v.t, "refused", ask[string](v.phone, `new Promise((done) => {
		const picture = new Image();
		picture.onload = () => done('loaded');
		picture.onerror = () => done('refused');
		picture.src = '/icons/icon-192.png';
	})`))
	assert.False(v.t, ask[bool](v.phone, "Boolean(globalThis.goappGetenv)"), "a script file ran")
}

// VisitNoted opens a path in a fresh tab that noteFirst watches, and waits for nothing.
func (v *traveller) VisitNoted(path string) {
	v.t.Helper()
	old := v.page
	v.blank(noteFirst)
	require.NoError(v.t, v.page.Goto(v.server.URL(path)))
	if old != nil {
		old.Close()
	}
}

// While the program is starting, the page of that address can be read; then the
// program takes its place. Pinned cards are kept too.
func TestPlainPageIsThereBeforeTheProgram(t *testing.T) {
	v := withDemo(t, padsCard)
	v.Tap("button:Pin")
	v.See("Pinned: it can be read")
	v.WaitPlain(plainPads)
	v.VisitNoted(padsCard)
	v.WaitKit()
	first := ask[map[string]any](v.phone, "atFirst")
	assert.Equal(t, "loading", first["start"])
	assert.Equal(t, true, first["over"])
	assert.Contains(t, first["text"], "Measure before you pay")
	v.WaitFor("the plain page to go", "!document.getElementById('plain')")
	v.See("Share as text", "Pinned")

	v.VisitNoted("/rig")
	v.WaitKit()
	first = ask[map[string]any](v.phone, "atFirst")
	assert.Equal(t, false, first["over"])
	assert.Contains(t, first["text"], "Readable before, or without, the program")
	assert.Contains(t, strings.ToLower(first["text"].(string)), "emergency")
	assert.NotContains(t, first["text"], "Not ready for no signal")
}

// A plain page over the program that is still starting has the theme of the program.
func TestPlainPageHasTheTheme(t *testing.T) {
	v := withDemo(t, padsCard)
	ground := func() float64 {
		t.Helper()
		v.VisitNoted(padsCard)
		v.WaitKit()
		first := ask[map[string]any](v.phone, "atFirst")
		require.Equal(t, true, first["over"])
		return luminance(rgb(t, first["ground"].(string)))
	}
	v.WaitPlain(plainPads)
	assert.Greater(t, ground(), 0.8)
	v.Go("/kit")
	v.Tap("button:night")
	v.WaitFor("the page in the dark", plainSays(plainPads, `<html lang="en" data-theme="night"`))
	assert.Less(t, ground(), 0.02)
	v.Go("/kit")
	v.Tap("button:daylight")
	v.WaitFor("the page in daylight", plainSays(plainPads, `<html lang="en" data-theme="daylight"`))
	assert.Greater(t, ground(), 0.8)
}

// An address of a plain page that is kept no more, as of a repair that is finished, opens
// the program, once.
func TestPlainPageKeptNoMore(t *testing.T) {
	v := away(t)
	v.Open("/rig")
	v.Tap("button:Begin with my rig")
	v.See("Counter-ready")
	for _, path := range []string{"/plain/repair/run?id=finished", "/plain/x%"} {
		v.Open(path)
		v.See("Counter-ready")
		assert.Equal(t, "/", v.Path(), "of %s", path)
		began := ask[float64](v.phone, "performance.timeOrigin")
		v.WaitFor("a while to pass", "new Promise((passed) => setTimeout(() => passed(true), 3000))")
		assert.Equal(t, began, ask[float64](v.phone, "performance.timeOrigin"), "it was not opened again")
	}
}

// The page of an earlier version, to which a person went back, may not have the parts
// that this worker fills in: it opens all the same.
func TestPlainPageOverAnEarlierVersion(t *testing.T) {
	v := withDemo(t, padsCard)
	v.See("Measure before you pay")
	v.WaitPlain(plainPads)
	require.True(t, ask[bool](v.phone, openStored+".then(async (c) => {"+`
		const page = await c.match('/');
		const text = (await page.text()).replaceAll(/<!--\/?(program|plain list|not stored|version before)-->/g, '');
		await c.put('/', new Response(text, { headers: page.headers }));
		return !text.includes('<!--program');
	})`))
	v.VisitNoted(padsCard)
	v.WaitKit()
	v.See("Share as text")
	v.VisitNoted("/rig")
	v.WaitKit()
}

// damageProgram puts other bytes in place of the stored program.
func (p *phone) damageProgram(body string) {
	p.t.Helper()
	require.True(p.t, ask[bool](p, openStored+".then((c) => c.put('/app.wasm', new Response("+body+
		", { headers: { 'Content-Type': 'application/wasm' } }))).then(() => true)"))
}

// A program that cannot start leaves the plain pages readable: that of the address,
// and the list of all on every other.
func TestPlainPagesWithoutTheProgram(t *testing.T) {
	for name, body := range map[string]string{
		"damaged":    "new TextEncoder().encode('nonsense')",
		"not loaded": "new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1])",
	} {
		t.Run(name, func(t *testing.T) {
			v := withDemo(t, padsCard)
			v.forgive = []string{"CompileError", "app.wasm"}
			v.WaitPlain(plainPads)
			v.damageProgram(body)
			v.VisitNoted(padsCard)
			v.See("Could not load the program: its file is damaged", "Measure before you pay", "Open again")
			v.VisitNoted("/rig")
			v.See("Could not load the program", "Readable before, or without, the program")
			v.Tap("link:Emergency")
			v.See("Call for help")
			v.VisitNoted(padsCard)
			v.Tap("link:Read the pages kept as plain text")
			v.See("Kept as plain pages")
		})
	}
}

// Plain pages can be read in the sun and hit with a glove like every screen.
func TestPlainPagesAreReadable(t *testing.T) {
	v := withDemo(t, padsCard)
	v.See("Measure before you pay")
	v.WaitPlain(plainPads)
	for _, path := range []string{"/plain/", "/plain/emergency", "/plain/repair/run?id=run-wicket-u-joint", plainPads} {
		v.VisitNoted(path)
		v.See("Kept from")
		for _, theme := range []string{"daylight", "night"} {
			v.Run(fmt.Sprintf(`document.documentElement.dataset.theme = %q`, theme))
			assert.Empty(t, v.look("contrast", theme), path)
		}
		assert.Empty(t, v.look("small", ""), path)
		for _, size := range sizes {
			require.NoError(t, v.Resize(size.width, size.height, size.scale))
			assert.Empty(t, v.look("wide", size.name), path)
			assert.Empty(t, v.look("targets", size.name), path)
		}
	}
}
