//go:build browser

package browsertest

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typed is what goes into one field of a form.
type typed struct{ field, text string }

// Every field of a form gets what it cannot mean. Each says what is wrong with it,
// keeps what was typed, and nothing reaches the kit.
func TestRubbish(t *testing.T) {
	v := withDemo(t, "/log")
	before := v.OnDisk(demoDatabase)
	for _, form := range []struct {
		path, save string
		rubbish    []typed
	}{
		{"/log/reading?position=hobnail-front-brake-pads", "Save", []typed{
			{"Reading", "1 3/8/2"}, {"Date", "3/4/2026"}, {"Odometer", "ten"}}},
		{"/log/reading?position=hobnail-front-brake-pads", "Save", []typed{
			{"Reading", "5,5,5 mm"}, {"Odometer", "0x10 km"}}},
		{"/log/reading?position=hobnail-front-brake-pads", "Save", []typed{
			{"Date", "31 Feb 2026"}, {"Odometer", "-5 mi"}, {"What is measured", "  "}}},
		{"/log/failure?position=hobnail-front-brake-pads", "Save", []typed{
			{"What broke", ""}, {"Date", "soon"}, {"Odometer", "99999999999999999999999 km"}, {"Time lost", "-3 h"}}},
		{"/pack/trip/edit", "Save trip", []typed{
			{"Name", ""}, {"First day", "2026-13-01"}, {"Days", "3.5"}, {"Distance in all", "far"}, {"Weight", "12 furlongs"}, {"Space", "-1 L"},
			{"Money to spend before leaving", "12 EUR"}}},
		{"/pack/trip/edit?id=2026-12-widows-rib", "Save trip", []typed{
			{"First day", "1/2/26"}, {"Days", "０"}, {"Distance in all", "1e308 km"}, {"Weight", "∞"}, {"Money to spend before leaving", "1.2.3"}}},
		{"/rig/position/edit?id=hobnail-front-brake-pads", "Save position", []typed{
			{"Name of the position", ""}, {"Pieces here", "-1"}, {"Fitted on", "yesterday-ish"}, {"Odometer when fitted", "12 parsecs"}}},
		{"/rig/part/edit?id=pads-front&position=hobnail-front-brake-pads", "Save part", []typed{
			{"Name", ""}, {"Weight of one as carried", "heavy"}, {"Space one takes as packed", "1/0 L"}, {"Price of one", "free"}}},
		{"/rig/donor", "Save donor", []typed{
			{"Make", ""}, {"Model", ""}, {"First year", "88"}, {"Last year", "MCMXC"}}},
		{"/rig/edit?id=hobnail", "Save rig", []typed{
			{"Name", ""}, {"Odometer", "55 240 000 000 000 mi"}, {"Read on", "0000-00-00"}}},
		{"/pack/stock/edit?what=spares&id=spare-ujoint-1350", "Save", []typed{{"Pieces owned", "two"}}},
		{"/pack/stock/edit?what=bins&id=h-cab-box", "Save", []typed{{"Carries at most", "a lot"}, {"Holds at most", "30 barrels"}}},
	} {
		v.Go(form.path)
		for _, r := range form.rubbish {
			v.put(r.field, r.text)
		}
		v.Tap("button:" + form.save)
		for _, r := range form.rubbish {
			said := v.wrong(r.field)
			assert.NotRegexp(t, `strconv|parsing|panic|<nil>|%!|invalid syntax`, said)
			assert.Equal(t, r.text, v.Value(r.field), "%s: %s", form.path, r.field)
			t.Logf("%s %q: %s", r.field, r.text, said)
		}
		assert.Equal(t, form.path, v.Path())
	}
	assert.Equal(t, before, v.OnDisk(demoDatabase), "nothing of it was written")
}

// put sets a field as typing would.
func (v *traveller) put(label, text string) {
	v.t.Helper()
	require.True(v.t, ask[bool](v.phone, fmt.Sprintf(`((label, text) => {
		const field = Array.from(document.querySelectorAll('main label')).find((l) => l.innerText.trim() === label)?.control;
		if (!field) return false;
		field.focus();
		field.value = text;
		field.dispatchEvent(new Event('input', { bubbles: true }));
		return true;
	})(%s, %s)`, quoted(label), quoted(text))), "no field %q on %s", label, v.Path())
	v.Settle()
}

// wrong waits until a field says what is wrong with it.
func (v *traveller) wrong(label string) string {
	v.t.Helper()
	line := fmt.Sprintf(`Array.from(document.querySelectorAll('main label')).find((l) => l.innerText.trim() === %q)
		?.closest('.field').querySelector('.wrong')?.innerText`, label)
	v.WaitFor("a word on what is wrong with "+label, line)
	return ask[string](v.phone, line)
}

// Whatever is searched for, the box answers soon, shows it as text and goes on.
func TestRubbishSearches(t *testing.T) {
	v := withDemo(t, "/counter")
	for _, query := range []string{
		`((((*?*))))`, strings.Repeat("?", 60), strings.Repeat("*a", 200), strings.Repeat("9", 3000), "%00%ff", "\u202eabc 👻𝄞",
		`<img src=x onerror="document.title='ran'">`, `'; DROP TABLE parts; --`, "1/0 in", "-", "   ",
	} {
		v.search(query)
		before := time.Now()
		v.WaitFor("an answer to "+query, `document.querySelector('main .list, main .empty')`)
		v.Settle()
		assert.Less(t, time.Since(before), 8*time.Second, query)
		assert.NotEqual(t, "ran", ask[string](v.phone, "document.title"))
	}
	v.search("front brake pads")
	v.See("Hobnail, Brakes: front brake pads")

	// So do addresses that name what is not there.
	for _, path := range []string{
		"/nowhere", "/rig/", "/rig/position", "/rig/position?id=%3Cscript%3E", "/rig/position/edit?id=none", "/rig/part/edit?id=none", "/rig/donor?id=none",
		"/rig/link/edit?part=none", "/rig/gaps?rig=none", "/counter?q=%C3%28", "/counter/card", "/counter/card?part=none&position=none", "/counter/kind?id=none",
		"/pack/trip?id=none", "/pack/line?trip=none&type=x&item=y", "/pack/add?trip=none", "/pack/stock?what=none", "/pack/stock/edit?what=none&id=none",
		"/pack/trip/edit?id=none", "/repair?position=none", "/repair/guide?id=none", "/repair/run?id=none", "/log/failure?id=none",
		"/log/reading?id=none", "/log?show=none",
	} {
		v.Go(path)
		v.WaitFor("a way on from "+path, `document.querySelectorAll('nav a').length === 5 && document.querySelector('main').innerText.trim().length > 20`)
		assert.NotRegexp(t, `(?i)not found|undefined|<nil>|NaN|%!`, v.Text(), path)
	}
}

// search types into the search box.
func (v *traveller) search(text string) {
	v.t.Helper()
	v.Run(fmt.Sprintf(`((box, text) => {
		box.value = text;
		box.dispatchEvent(new Event('input', { bubbles: true }));
	})(document.querySelector('input[type=search]'), %s)`, quoted(text)))
}

// quoted is a text as JavaScript writes it.
func quoted(text string) string {
	b, err := json.Marshal(text)
	if err != nil {
		panic(err) // a string always encodes
	}
	return string(b)
}
