package problemfile

import (
	"fmt"
	"testing"
	"time"

	"trailfieldkit/fieldkit/spares/optimum"
	"trailfieldkit/fieldkit/spares/problemfile/generatedtest"
)

// BenchmarkGenerated prints the time to the proof, or the gap after ten seconds.
func BenchmarkGenerated(b *testing.B) {
	for name, make := range map[string]func(generatedtest.Size, uint64) []byte{"linear": generatedtest.Linear, "pooled": generatedtest.Pooled} {
		for _, size := range generatedtest.Sizes {
			for seed := range uint64(3) {
				b.Run(fmt.Sprintf("%s/%d+%d/%d", name, size.Spares, size.Tools, seed), func(b *testing.B) {
					task, err := Read(make(size, seed))
					if err != nil {
						b.Fatal(err)
					}
					for b.Loop() {
						from := time.Now()
						a := task.Solve(optimum.Options{KeepGoing: func() bool { return time.Since(from) < 10*time.Second }})
						b.ReportMetric(float64(a.Nodes), "nodes")
						b.ReportMetric(100*(a.Bound-a.Value)/a.Bound, "%gap")
					}
				})
			}
		}
	}
}
