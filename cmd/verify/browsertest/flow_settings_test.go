//go:build browser

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Units and theme are this phone's, at once on every screen, and still there after
// the battery was empty: the theme before the program has even started.
func TestUnitsAndTheme(t *testing.T) {
	v := withDemo(t, padsCard)
	v.See("pad length 6.42 in (163.07 mm)")
	day := v.colour("body", "background-color")
	assert.Greater(t, luminance(day), 0.8)
	v.Go("/kit")
	v.See("Ready for no signal")
	v.Tap("button:mm, kg, km")
	v.Tap("button:night")
	v.See("Theme")

	check := func() {
		t.Helper()
		v.See("pad length 163.07 mm (6.42 in)", "thickness with backing plate 18.4 mm (0.724 in)")
		assert.Equal(t, "night", ask[string](v.phone, `document.documentElement.dataset.theme`))
		night := v.colour("body", "background-color")
		assert.Less(t, luminance(night), 0.02, "dark enough for eyes used to the night")
		assert.GreaterOrEqual(t, contrast(v.colour("body", "color"), night), 7.0)
	}
	v.Go(padsCard)
	check()
	v.Go("/pack/trip/edit?id=2026-12-widows-rib")
	assert.Equal(t, "160 kg", v.Value("Weight"))
	v.DieAndWake(padsCard)
	check()
	v.Reload()
	assert.Contains(t, v.page.Console(), "debug: theme at first: night", "set by the page's own script")

	// A bare number is read in the units chosen.
	v.Go("/log/reading?position=hobnail-front-brake-pads")
	v.Fill("Reading", "5")
	v.Tap("button:Save")
	v.At("/log")
	v.See("5 mm (0.197 in)") // 5 / 25.4 = 0.19685
	v.Go("/kit")
	v.See("Ready for no signal")
	v.Tap("button:inch, lb, mi")
	v.Tap("button:daylight")
	v.Go("/log")
	v.See("0.197 in (5 mm)")
	assert.Equal(t, day, v.colour("body", "background-color"))
}

// What the browser says of how it keeps the kit comes late, and so do the latest changes:
// they come into room kept for them.
func TestKitScreenStandsStill(t *testing.T) {
	v := withDemo(t, "/rig")
	v.Run(`(() => {
		const [answer, gate] = [fieldkitOfflineReady, new Promise((open) => { globalThis.letGo = open; })];
		globalThis.fieldkitOfflineReady = (...mend) => gate.then(() => answer(...mend));
	})()`)
	v.Go("/kit")
	v.See("Checking …", "Make a backup", "Latest changes")
	places := func() map[string]float64 {
		return ask[map[string]float64](v.phone, `Object.fromEntries([...document.querySelectorAll('main h2, main summary, main section button')]
			.filter((e) => !e.closest('.like') && e.innerText !== 'Check again' && !e.innerText.startsWith('Ask the browser'))
			.map((e) => [e.innerText, e.getBoundingClientRect().top + scrollY]))`)
	}
	before := places()
	v.Run("letGo()")
	v.See("Ready for no signal", "used of")
	assert.Equal(t, before, places())
}
