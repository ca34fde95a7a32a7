package lookup_test

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/lookup/lookuptest"
)

func TestGradedQueriesAskForWhatIsThere(t *testing.T) {
	docs := lookuptest.Corpus(data.DemoKit(), data.Catalog(), data.Handbook(), data.TableRows())
	queries, held, seen := lookuptest.Queries(), 0, map[string]bool{}
	for _, q := range queries {
		require.False(t, seen[q.Text], "%q twice", q.Text)
		seen[q.Text] = true
		if q.Held {
			held++
		}
		for _, want := range q.Expect {
			one := lookuptest.Query{Expect: []string{want}}
			assert.True(t, slices.ContainsFunc(docs, func(d lookuptest.Document) bool { return d.Answers(one) }), "%q: %q", q.Text, want)
		}
	}
	require.GreaterOrEqual(t, len(queries), 300)
	require.Greater(t, 10*held, 3*len(queries), "a third, rounded down in each group, is held back")
}

// goal is the share of queries whose answer must be among the first five.
const goal = 0.98

func TestGradedQueriesAreFound(t *testing.T) {
	ix := lookup.New(data.DemoKit(), data.Catalog(), data.Shelf())
	for _, held := range []bool{false, true} {
		asked, first, five := 0.0, 0.0, 0.0
		for _, q := range lookuptest.Queries() {
			if q.Held != held {
				continue
			}
			asked++
			hits := ix.Find(q.Text, 5)
			checkHits(t, hits, 5)
			switch at := q.Place(hits); {
			case at == 0:
				first, five = first+1, five+1
			case at > 0:
				five++
			case !held:
				t.Logf("not found: %q (%s)", q.Text, q.Group)
			}
		}
		t.Logf("held back %t: %.0f asked, %.3f first, %.3f among five", held, asked, first/asked, five/asked)
		require.GreaterOrEqual(t, five/asked, goal)
	}
}

// BenchmarkGraded asks the graded queries of the demo kit and of one of 10,000 parts,
// each together with the tables, and reports how long a person waits.
func BenchmarkGraded(b *testing.B) {
	for _, size := range []struct {
		name string
		kit  fieldkit.Kit
	}{{"demo", data.DemoKit()}, {"10000parts", manyParts(10_000)}} {
		b.Run(size.name, func(b *testing.B) {
			ix := lookup.New(size.kit, data.Catalog(), data.Shelf())
			var times []time.Duration
			for b.Loop() {
				for i, q := range lookuptest.Queries() {
					if i%20 == 0 {
						time.Sleep(time.Millisecond) // a page must answer now and then
					}
					start := time.Now()
					ix.Find(q.Text, 20)
					times = append(times, time.Since(start))
				}
			}
			slices.Sort(times)
			b.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, "ms-median")
			b.ReportMetric(float64(times[len(times)*95/100].Microseconds())/1000, "ms-95th")
		})
	}
}
