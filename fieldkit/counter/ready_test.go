package counter_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
)

// one is a kit of one position with one part, changed by each case.
func one(change func(p *fieldkit.Part, at *fieldkit.Position)) fieldkit.Kit {
	p := fieldkit.Part{ID: "p", Kind: "axle-u-joint", Name: "joint", Donor: "d", Measurements: []fieldkit.Measurement{
		measured("cap diameter", "30 mm", "caliper", fieldkit.Date{}), measured("span", "92 mm", "caliper", fieldkit.Date{}), measured("holding", "clips outside", "", fieldkit.Date{}),
	}}
	at := fieldkit.Position{ID: "at", System: "s", Name: "axle joint", Kind: "axle-u-joint", Part: "p"}
	change(&p, &at)
	return fieldkit.Kit{
		Rigs: []fieldkit.Rig{{ID: "r"}}, Systems: []fieldkit.Assembly{{ID: "s", Rig: "r"}}, Donors: []fieldkit.Donor{{ID: "d"}},
		Parts: fieldkit.ListOf([]fieldkit.Part{p}), Positions: fieldkit.ListOf([]fieldkit.Position{at}),
	}
}

func number(issuer fieldkit.Issuer, how fieldkit.Evidence) []fieldkit.Number {
	n := fieldkit.Number{Value: "K-4410 B", Issuer: issuer}
	if how != "" {
		n.Proof = &fieldkit.Proof{How: how}
	}
	return []fieldkit.Number{n}
}

func TestReadyRules(t *testing.T) {
	type part = *fieldkit.Part
	type position = *fieldkit.Position
	cases := []struct {
		name   string
		change func(p part, at position)
		state  counter.State
		gaps   []string
	}{
		{"donor known and all measured", func(part, position) {}, counter.StateReady, nil},
		{"part not known", func(p part, at position) { at.Part = "" }, counter.StateNot, []string{"find out which part is fitted (axle U-joint)"}},
		{"part no longer in the kit", func(p part, at position) { at.Part = "gone" }, counter.StateNot, []string{"find out which part is fitted (axle U-joint)"}},
		{"one measurement missing", func(p part, at position) { p.Measurements = p.Measurements[1:] }, counter.StateNearly, []string{"measure cap diameter"}},
		{"something to note missing", func(p part, at position) { p.Measurements = p.Measurements[:2] }, counter.StateNearly, []string{"note holding"}},
		{"what need not be measured is no gap", func(p part, at position) { p.Measurements[0].Worn = true }, counter.StateReady, nil},
		{"two measurements missing", func(p part, at position) { p.Measurements = p.Measurements[2:] }, counter.StateNot, []string{"measure cap diameter", "measure span"}},
		{"donor not known", func(p part, at position) { p.Donor = "" }, counter.StateNearly, []string{"donor not known"}},
		{"donor no longer in the kit", func(p part, at position) { p.Donor = "gone" }, counter.StateNearly, []string{"donor not known"}},
		{"number read stands for donor and measurements", func(p part, at position) {
			p.Donor, p.Measurements, p.Numbers = "", nil, number(fieldkit.ReplacementNumber, fieldkit.NumberRead)
		}, counter.StateReady, nil},
		{"test-fitted number too", func(p part, at position) {
			p.Donor, p.Measurements, p.Numbers = "", nil, number(fieldkit.MakerNumber, fieldkit.TestFitted)
		}, counter.StateReady, nil},
		{"standard designation needs no proof", func(p part, at position) {
			p.Donor, p.Measurements, p.Numbers = "", nil, number(fieldkit.StandardNumber, "")
		}, counter.StateReady, nil},
		{"standard designation that is only said", func(p part, at position) {
			p.Donor, p.Measurements, p.Numbers = "", p.Measurements[1:], number(fieldkit.StandardNumber, fieldkit.Hearsay)
		}, counter.StateNearly, []string{"donor not known", "measure cap diameter", "number K-4410 B only hearsay: read it off the part"}},
		{"number of a store book is not proven", func(p part, at position) {
			p.Measurements, p.Numbers = nil, number(fieldkit.ReplacementNumber, fieldkit.StoreBook)
		}, counter.StateNearly, []string{"measure cap diameter", "measure span", "note holding", "number K-4410 B only store book: read it off the part"}},
		{"number without proof", func(p part, at position) {
			p.Donor, p.Numbers = "", number(fieldkit.MakerNumber, "")
		}, counter.StateNearly, []string{"donor not known", "number K-4410 B without a word on how it is known: read it off the part"}},
		{"unproven number beside all that is needed is no gap", func(p part, at position) {
			p.Numbers = number(fieldkit.MakerNumber, fieldkit.Hearsay)
		}, counter.StateReady, nil},
		{"casting mark is no number", func(p part, at position) {
			p.Donor, p.Measurements, p.Numbers = "", nil, number(fieldkit.CastingMark, fieldkit.NumberRead)
		}, counter.StateNot, []string{"donor not known", "measure cap diameter", "measure span", "note holding"}},
		{"how it is known to be fitted is not written down", func(p part, at position) { at.Proof = nil }, counter.StateReady, nil},
		{"fitted by hearsay", func(p part, at position) { at.Proof = &fieldkit.Proof{How: fieldkit.Hearsay} }, counter.StateNearly, []string{"that joint sits here is only hearsay"}},
		{"fitted by hearsay and a gap", func(p part, at position) {
			at.Proof, p.Donor = &fieldkit.Proof{How: fieldkit.Hearsay}, ""
		}, counter.StateNot, []string{"that joint sits here is only hearsay", "donor not known"}},
		{"a kind that nothing decides", func(p part, at position) { p.Kind, at.Kind, p.Measurements = "bracket", "bracket", nil }, counter.StateReady, nil},
		{"a kind that is not known", func(p part, at position) { p.Kind, at.Kind, at.Part = "odd", "odd", "" }, counter.StateNot, []string{"find out which part is fitted"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			list := counter.Ready(one(c.change), catalog, "r")
			require.Len(t, list, 1)
			assert.Equal(t, c.state, list[0].State)
			assert.Equal(t, c.gaps, list[0].Gaps)
			assert.Equal(t, "at", list[0].Position)
		})
	}
}

func TestReadyIsInFileOrderAndOfOneRig(t *testing.T) {
	var got []string
	for _, r := range counter.Ready(kit(), catalog, "hobnail") {
		got = append(got, r.Position+" "+string(r.State))
	}
	assert.Equal(t, []string{"joint-left ready", "joint-right ready", "pads-left not ready", "pads-right not ready", "pads-rear not ready", "plate-at nearly"}, got)
	assert.Empty(t, counter.Ready(kit(), catalog, "none"))
}

// A gap once closed never makes a position worse: whatever is added to what is
// known, its steps to ready do not grow.
func TestClosingGapsOnlyHelps(t *testing.T) {
	rank := map[counter.State]int{counter.StateReady: 0, counter.StateNearly: 1, counter.StateNot: 2}
	closers := []func(p *fieldkit.Part, at *fieldkit.Position){
		func(p *fieldkit.Part, _ *fieldkit.Position) { p.Donor = "d" },
		func(p *fieldkit.Part, _ *fieldkit.Position) {
			p.Measurements = append(p.Measurements, measured("cap diameter", "30 mm", "", fieldkit.Date{}))
		},
		func(p *fieldkit.Part, _ *fieldkit.Position) {
			p.Measurements = append(p.Measurements, measured("span", "92 mm", "", fieldkit.Date{}))
		},
		func(p *fieldkit.Part, _ *fieldkit.Position) {
			p.Measurements = append(p.Measurements, measured("holding", "clips", "", fieldkit.Date{}))
		},
		func(p *fieldkit.Part, _ *fieldkit.Position) {
			p.Numbers = number(fieldkit.MakerNumber, fieldkit.NumberRead)
		},
		func(_ *fieldkit.Part, at *fieldkit.Position) { at.Proof = &fieldkit.Proof{How: fieldkit.TestFitted} },
	}
	state := func(set int) counter.Readiness {
		return counter.Ready(one(func(p *fieldkit.Part, at *fieldkit.Position) {
			p.Donor, p.Measurements, p.Numbers, at.Proof = "", nil, nil, &fieldkit.Proof{How: fieldkit.Hearsay}
			for i, closer := range closers {
				if set>>i&1 == 1 {
					closer(p, at)
				}
			}
		}), catalog, "r")[0]
	}
	for set := range 1 << len(closers) {
		before := state(set)
		require.Equal(t, before.State == counter.StateReady, len(before.Gaps) == 0)
		for i := range closers {
			require.LessOrEqual(t, rank[state(set|1<<i).State], rank[before.State])
		}
	}
}

func TestGapsWorthClosing(t *testing.T) {
	gaps := counter.GapsWorthClosing(counter.Ready(kit(), catalog, "hobnail"))
	var got []string
	for _, g := range gaps {
		got = append(got, strings.Join(g.Positions, "+")+" "+g.What)
	}
	assert.Equal(t, []string{
		"pads-left+pads-right donor not known", // both sides wear the same pads: once, and twice as likely
		"pads-left+pads-right count holes",
		"pads-rear find out which part is fitted (brake pads)",
		"plate-at donor not known", // no failure rate
	}, got)
	assert.Equal(t, "front pads, left and right", gaps[0].Title)
	assert.Equal(t, "about 0.1 failures in 10,000 km (starting guess), 6 h lost without a spare, none in stock, one of 2 things missing there", gaps[0].Why)
	assert.InDelta(t, 0.1*6/2, gaps[0].Worth, 1e-9)
	assert.Zero(t, gaps[3].Worth)
	assert.Empty(t, counter.GapsWorthClosing(nil))

	either := counter.GapsWorthClosing(counter.Ready(one(func(p *fieldkit.Part, _ *fieldkit.Position) {
		p.Measurements, p.Numbers = p.Measurements[:1], number(fieldkit.ReplacementNumber, fieldkit.StoreBook)
	}), catalog, "r"))
	require.Len(t, either, 1, "the number settles what the measurements would")
	assert.Equal(t, "number K-4410 B only store book: read it off the part, or else: measure span, note holding", either[0].What)
}

func TestASpareInStockMakesAGapLessWorth(t *testing.T) {
	k := one(func(p *fieldkit.Part, _ *fieldkit.Position) { p.Donor = "" })
	worth := func() counter.Gap { return counter.GapsWorthClosing(counter.Ready(k, catalog, "r"))[0] }
	none := worth()
	k.Spares = fieldkit.ListOf([]fieldkit.Spare{{ID: "s", Part: "p", Count: 2}})
	assert.Equal(t, none.Worth/4, worth().Worth)
	assert.Contains(t, worth().Why, "2 in stock")

	k.Parts = k.Parts.With(fieldkit.Part{ID: "q"})
	k.Spares = fieldkit.ListOf([]fieldkit.Spare{{ID: "s", Part: "q", Count: 2}})
	assert.Equal(t, none.Worth, worth().Worth, "a spare of something else")
	k.Links = fieldkit.ListOf([]fieldkit.Link{{ID: "l", For: "p", With: "q", Grade: fieldkit.DropIn}})
	assert.Equal(t, none.Worth/4, worth().Worth, "a spare that drops in")
	k.Links = fieldkit.ListOf([]fieldkit.Link{{ID: "l", For: "p", With: "q", Grade: fieldkit.WithChanges}})
	assert.Equal(t, none.Worth, worth().Worth, "a spare that needs changes is no rest")
}
