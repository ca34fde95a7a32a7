//go:build browser

package browsertest

import "testing"

// A person who knows better writes it down: how parts of a kind fail, what a failure
// costs on a trip, what the engine gives. Each shows where it counts.
func TestOwnFigures(t *testing.T) {
	v := withDemo(t, "/rig/prior?kind=relay")
	v.See("Starting guess, not measured")
	v.Fill("Failures in a million km", "900")
	v.Tap("button:Save as your own figures")
	v.At("/rig/priors")
	v.unfold()
	v.See("900 in a million km")
	v.See("your own figures")
	v.Go("/rig/prior?kind=relay")
	v.See("Your own figures")
	v.Tap("button:Back to the starting guess")
	v.At("/rig/priors")
	v.unfold()
	v.See("15 in a million km")

	v.Go("/pack/cost?trip=2026-12-widows-rib&position=hobnail-starter")
	v.See("limps out, or does without")
	v.Tap("button:stays where it is")
	v.Fill("Lost when limped, towed or fetched", "40 h")
	v.Tap("button:Save what it costs")
	v.At("/pack/costs")
	v.See("set by hand")
	// The form below stays open when it is saved, and can be saved again.
	v.unfold()
	for label, text := range map[string]string{"Deep water crossings": "7", "An hour lost is worth": "40"} {
		v.Fill(label, text)
		v.See("Start over")
		v.Tap("button:Save how it counts")
		v.WaitFor("the form as it is kept", `!document.body.innerText.includes('Start over')`)
		v.unfold()
	}
	v.Reload()
	v.unfold()
	v.WaitFor("both figures", `['7', '40.00 USD'].every((kept) => Array.from(document.querySelectorAll('main input')).some((i) => i.value === kept))`)

	v.Go("/rig/driveline?rig=hobnail")
	v.See("by grip of the tyres")
	v.Go("/rig/drive/edit?rig=hobnail")
	v.Fill("Greatest torque of the engine", "60 N·m")
	v.Tap("button:Save driveline")
	v.At("/rig/driveline")
	v.See("by engine and gears")
}
