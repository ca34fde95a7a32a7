package journal_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// Checking only what an edit reaches refuses exactly the edits that checking the
// whole kit refuses.
func TestCheckReachesFarEnough(t *testing.T) {
	for seed := range uint64(40) {
		rnd := rand.New(rand.NewPCG(seed, 4))
		s := open(t, journal.NewMemory())
		newID := counter("entry")
		for range 60 {
			edit := wildEdit(rnd)
			var whole []kitfile.Problem
			_, err := s.Do(ctx, "wild edit", now, newID, func(ed *journal.Edit) error {
				edit(ed)
				whole = kitfile.Check(ed.Kit())
				return nil
			})
			require.Equal(t, len(whole) > 0, err != nil, "seed %d: %v; %v", seed, whole, err)
			require.Empty(t, kitfile.Check(s.Kit()), "seed %d", seed)
		}
	}
}

// wildEdit puts and deletes records that refer to each other, without care.
func wildEdit(rnd *rand.Rand) func(*journal.Edit) {
	name := func(of string) string { return of + "-" + string(rune('a'+rnd.IntN(5))) }
	maybe := func(s string) string {
		if rnd.IntN(2) == 0 {
			return ""
		}
		return s
	}
	kind, a, b, c := rnd.IntN(9), name("p"), maybe(name("p")), maybe(name("part"))
	part, spare := name("part"), name("spare")
	return func(ed *journal.Edit) {
		switch kind {
		case 0, 1, 2:
			ed.Put(fieldkit.Position{ID: a, System: "front-axle", Parent: b, Name: "hub", Kind: "hub", Quantity: 1, Part: c})
		case 3:
			ed.Delete("positions", a)
		case 4, 5:
			ed.Put(fieldkit.Part{ID: part, Kind: "hub", Name: "hub", Donor: maybe("donor")})
		case 6:
			ed.Delete("parts", part)
		case 7:
			ed.Put(fieldkit.Spare{ID: spare, Part: part, Count: 1})
		default:
			ed.Delete("spares", spare)
			ed.Put(fieldkit.Failure{ID: "f", Rig: "rig", On: fieldkit.DateOf(now.Time), What: "broke", Part: c, Position: b})
		}
	}
}
