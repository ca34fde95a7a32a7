//go:build browser

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The card of the front brake pads of the first rig in the demo kit.
const padsCard = "/counter/card?part=pads-front&position=hobnail-front-brake-pads"

// At the store: search, open the card, tell the pads in hand from what only looks
// like them.
func TestFindFrontBrakePads(t *testing.T) {
	v := withDemo(t, "/counter")
	v.Fill("Name, number, donor or size", "front brake pads")
	v.See("Hobnail, Brakes: front brake pads", "because:")
	v.Tap("front brake pads Hobnail")
	v.At(padsCard)

	// Whose part to ask for: the donor's, not that of the vehicle on the papers.
	v.See("It is from a", "2001-2006 Skarrowell Packsaddle 25 4x4 single rear wheels")
	assert.Equal(t, "Not for the 1984 Umberlow Hobnail 4x4 pickup outside", v.TextOf("css:.notfor"))
	assert.NotContains(t, v.TextOf("css:.donor"), "Umberlow")
	assert.Equal(t, []string{"SK.09.552", "IVD-114", "OXH 70 B"}, v.stamps())
	v.See("not proven: store book") // the third number was never read off a part

	// 6.42 in × 25.4 mm/in = 163.068 mm, exact by the definition of the inch.
	v.See("pad length 6.42 in (163.07 mm)", "pad height 2.36 in (59.94 mm)", "0 of 4 that decide agree so far")
	v.Tap("checkbox:pad length")
	v.See("1 of 4 that decide agree so far")
	assert.Equal(t, "true", v.checked("pad length"))
	assert.Equal(t, "false", v.checked("pad height"))
	for _, name := range []string{"pad height", "thickness with backing plate", "ear shape"} {
		v.Tap("checkbox:" + name)
	}
	v.See("All that decides agrees")
	v.Tap("checkbox:ear shape") // looked again: hook ears
	v.See("3 of 4 that decide agree so far")

	v.See("Buy with it", "Pad springs",
		"If they have none, then this", "front brake pads, Dunmarl", "drop-in",
		"Looks like it, does not fit", "shorter, 5.95 in end to end; they fall into the bracket",
		"Over an inch shorter, hook ears. (measured, 7 Dec 2024, Oona)",
		"Where to ask", "Parts chain store")

	// Back is at the same answers.
	v.Back()
	v.At("/counter?q=front+brake+pads")
	v.See("Front brake pads, Dunmarl")

	// The address alone opens the card, in a tab that knows nothing of the search.
	v.Open(padsCard)
	v.See("2001-2006 Skarrowell Packsaddle 25", "3 of 4 that decide agree so far")
	v.Tap("link:front brake pads, Dunmarl")
	v.At("/counter/card?part=pads-front-dunmarl")
	assert.Equal(t, []string{"IVD-114"}, v.stamps())
	// Two that decide were never measured: ticking the others does not prove it.
	v.See("0 of 2 that decide agree so far")
	v.Tap("checkbox:pad length")
	v.Tap("checkbox:pad height")
	v.See("What is known agrees, but 2 that decide are not known")
	v.Back()
	v.At(padsCard)
	assert.Len(t, v.stamps(), 3)
	v.Forward()
	v.At("/counter/card?part=pads-front-dunmarl")
	assert.Equal(t, []string{"IVD-114"}, v.stamps())
}

// stamps are the numbers on the card, in the order shown.
func (v *traveller) stamps() []string {
	v.t.Helper()
	return ask[[]string](v.phone, `Array.from(document.querySelectorAll('.plate .stamp'), (e) => e.innerText)`)
}

func (v *traveller) checked(name string) string {
	v.t.Helper()
	state, err := v.page.Attribute("checkbox:"+name, "aria-checked")
	assert.NoError(v.t, err)
	return state
}
