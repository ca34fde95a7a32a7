package journal_test

import (
	"fmt"
	"testing"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// grown is a kit with n times the parts, positions and failures of a small one.
func grown(n int) fieldkit.Kit {
	k := begin()
	for i := range 60 * n {
		part := fieldkit.Part{ID: fmt.Sprint("part-", i), Kind: "u-joint", Name: "axle U-joint", Donor: "donor",
			Numbers: []fieldkit.Number{{Value: fmt.Sprint("D", i), Issuer: fieldkit.MakerNumber}}}
		k.Parts = k.Parts.With(part)
		k.Positions = k.Positions.With(fieldkit.Position{ID: fmt.Sprint("place-", i), System: "front-axle",
			Name: fmt.Sprint("joint ", i), Kind: "u-joint", Quantity: 1, Part: part.ID})
	}
	for i := range 12 * n {
		k.Failures = k.Failures.With(failure(fmt.Sprint("failure-", i), "snapped"))
	}
	return k
}

func BenchmarkDo(b *testing.B) {
	for _, n := range []int{1, 10, 100} {
		b.Run(fmt.Sprint("times ", n), func(b *testing.B) {
			s, _, err := journal.Open(ctx, journal.NewMemory(), func() fieldkit.Kit { return grown(n) })
			if err != nil {
				b.Fatal(err)
			}
			newID := counter("entry")
			for b.Loop() {
				_, err := s.Do(ctx, "log failure", now, newID, func(ed *journal.Edit) error {
					f := failure("failure-1", newID())
					ed.Put(f)
					return nil
				})
				if err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
