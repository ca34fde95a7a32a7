package merge

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// grown is the test kit with n more parts, each with a history of its own.
func grown(n int) Replica {
	k, h := begin(), &History{}
	for i := range n {
		p := fieldkit.Part{ID: fmt.Sprint("part-", i), Kind: "hose", Name: fmt.Sprint("hose ", i)}
		k.Parts = k.Parts.With(p)
		h.Record(h.Next(fieldkit.Moment{Time: start}, "a"), []Change{{Collection: "parts", ID: p.ID, After: kitfile.EncodeRecord(p)}})
	}
	return Replica{k, h}
}

// BenchmarkRecord notes one edit: the time must be the same in a kit of any size.
func BenchmarkRecord(b *testing.B) {
	for _, n := range []int{100, 1_000, 10_000} {
		r := grown(n)
		before := kitfile.EncodeRecord(r.Kit.Parts.At(1))
		p := r.Kit.Parts.At(1)
		p.Note = "noted"
		after := kitfile.EncodeRecord(p)
		b.Run(fmt.Sprint(n, " parts"), func(b *testing.B) {
			for b.Loop() {
				r.History.Record(r.History.Next(fieldkit.Moment{Time: start}, "a"), []Change{{Collection: "parts", ID: p.ID, Before: before, After: after}})
			}
		})
	}
}

// BenchmarkJoin joins two copies that differ in one record.
func BenchmarkJoin(b *testing.B) {
	for _, n := range []int{100, 1_000, 10_000} {
		mine := grown(n)
		other := Replica{mine.Kit, mine.History.Clone()}
		p := &phone{Replica: other, name: "b", clock: start.Local}
		p.write(setNote("hose", "b's"))
		b.Run(fmt.Sprint(n, " parts"), func(b *testing.B) {
			for b.Loop() {
				_, _, err := Join(mine, p.Replica)
				require.NoError(b, err)
			}
		})
	}
}
