//go:build browser

package browsertest

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// In the garage: a rig of one's own, one position filled in from its number, its
// donor and a fraction read off a rule. The form outlives a reload and a dead
// battery half-way, and the demo kit comes and goes without touching it.
func TestBlankKitAndOwnKit(t *testing.T) {
	v := away(t)
	v.Open("/rig")
	require.True(t, v.Stored().Ready)
	v.Tap("button:Begin with my rig")
	v.See("My rig", "Counter-ready", "0 of 58")
	v.Fold("Front axle")
	v.Tap("link:axle U-joint, left")
	v.See("Nothing is known of what sits here")
	v.Tap("link:Say what is fitted")
	v.Choose("Part", "a part not written down yet")
	v.Choose("How do you know it sits here", "measured")
	v.Tap("button:Save position")
	v.At("/rig/part/edit?position=")

	v.Fill("Name", "axle U-joint, big caps")
	v.Tap("button:Add a number")
	v.Fill("Number as printed", "PT-135?")
	typed := func() {
		t.Helper()
		v.See("This is what you typed earlier. It is not saved yet.")
		assert.Equal(t, "axle U-joint, big caps", v.Value("Name"))
		assert.Equal(t, "PT-135?", v.Value("Number as printed"))
	}
	v.Reload()
	typed()
	half := v.Path()
	v.Rest()
	v.DieAndWake(half)
	typed()
	v.Tap("button:replacement brand")
	v.Fill("Brand", "Peltrow")
	v.Fill("Span", "3-5")
	key := func(name string) string {
		return fmt.Sprintf(`css:.field:has(input[name="measure/d:span/value"]) .keys button[aria-label="add %s"]`, name)
	}
	v.Tap(key("/")) // number pads have none
	require.NoError(t, v.page.Type("8"))
	assert.Equal(t, "3-5/8", v.Value("Span"))
	v.Tap(key("mm")) // the wrong unit, put right with one more tap
	v.Tap(key("in"))
	assert.Equal(t, "3-5/8 in", v.Value("Span"))
	v.Fill("Cap diameter", "30.18 mm")

	v.Choose("From donor", "a donor not written down yet")
	v.Tap("link:Write down the donor, then come back")
	v.Fill("Make", "Dolvarne")
	v.Fill("Model", "Haulyard 350")
	v.Fill("First year", "1988")
	v.Fill("Last year", "1991")
	v.Tap("button:4x4")
	v.Tap("button:Save donor")
	v.At("/rig/part/edit?")
	typed()
	assert.Equal(t, "3-5/8 in", v.Value("Span"))
	v.Tap("button:Save part")
	v.At("/rig/position?id=")
	v.See("Saved part", "axle U-joint, big caps", "PT-135?")

	v.Tap("link:Counter card")
	// 3-5/8 in = 92.075 mm and 30.18 mm = 1.1882 in, by the definition of the inch.
	v.See("1988-1991 Dolvarne Haulyard 350 4x4", "PT-135?", "span 3-5/8 in (92.08 mm)", "cap diameter 1.188 in (30.18 mm)")
	v.Go("/counter?q=big+caps")
	v.See("axle U-joint, big caps")

	own := v.OnDisk(ownDatabase)
	v.Go("/kit")
	v.See("Ready for no signal")
	v.Tap("button:Look around in the demo kit")
	v.See("papers say: 1984 Umberlow Hobnail 4x4 pickup")
	v.Go("/counter?q=big+caps")
	v.See("Axle U-joint 1350, sealed")
	v.SeeNot("axle U-joint, big caps")
	v.Go("/kit")
	v.See("Ready for no signal")
	v.Tap("button:Throw the demo away")
	v.SeeNot("Demo kit, all invented")
	v.Go("/counter?q=big+caps")
	v.See("axle U-joint, big caps")
	assert.Equal(t, own, v.OnDisk(ownDatabase))
	assert.NotContains(t, ask[[]string](v.phone, `indexedDB.databases().then((all) => all.map((d) => d.name))`), demoDatabase)
	v.DieAndWake("/rig")
	v.See("My rig")
	v.SeeNot("Demo kit, all invented")
}

// Value is what a field holds.
func (v *traveller) Value(label string) string {
	v.t.Helper()
	value, err := v.page.Attribute("field:"+label, ".value")
	require.NoError(v.t, err)
	return value
}

// Most parts sit on both sides: what is known of one side is copied to the other,
// which is made where the rig has none. Whatever was deleted can be taken back.
func TestCopyLeftToRight(t *testing.T) {
	const left, right = "/rig/position?id=wicket-wheel-cylinder-left", "/rig/position?id=wicket-wheel-cylinder-right"
	v := withDemo(t, right)
	v.See("Nothing is known of what sits here")
	v.Go(left)
	v.Tap("button:Copy to the right side")
	v.See("Copied to the right side: wheel cylinder")
	v.Go(right)
	v.See("wheel cylinder, wagon", "test-fitted, 11 Apr 2026, by Oona", "Said to be the same as the left")
	v.Tap("button:Undo")
	v.See("Taken back.", "Nothing is known of what sits here")

	v.Tap("button:Delete position")
	v.At("/rig?rig=wicket")
	v.See("Deleted position: wheel cylinder, right")
	v.Tap("button:Undo")
	v.See("Taken back.")
	v.Go(right)
	v.See("find out which part is fitted")
	v.Tap("button:Delete position")
	v.At("/rig?rig=wicket")
	v.Go(right)
	v.See("There is no such position in this kit")

	v.Go(left)
	v.Tap("button:Copy to the right side")
	v.See("Copied to the right side: wheel cylinder")
	v.Reload()
	v.Go("/rig?rig=wicket")
	v.Fold("Brakes")
	v.Tap("link:wheel cylinder, right")
	v.See("wheel cylinder, wagon", "Also fitted at", "wheel cylinder, left")

	// What the log still speaks of is not deleted, and it is said why.
	v.Go("/rig/position?id=hobnail-axle-u-joint-right")
	v.See("Used by", "The position can be deleted once none of these needs it.")
	offered, err := v.page.Has("button:Delete position")
	require.NoError(t, err)
	require.False(t, offered)
}
