package journaltest

import (
	"context"
	"fmt"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// sessionsRacing lets three tabs take pieces from one stock and log why, all at
// the same time. No piece is counted twice, no note is lost, and all tabs end with
// the same kit.
func sessionsRacing(t *testing.T, open func() journal.Store) {
	const tabs, each = 3, 10
	ctx := context.Background()
	begin := func() fieldkit.Kit {
		return fieldkit.Kit{Format: fieldkit.Format, Version: "1.1", ID: "k", Name: "Crew", Currency: "USD",
			Rigs:   []fieldkit.Rig{{ID: "rig", Name: "Bramble"}},
			Parts:  fieldkit.ListOf([]fieldkit.Part{{ID: "joint", Kind: "u-joint", Name: "axle U-joint"}}),
			Spares: fieldkit.ListOf([]fieldkit.Spare{{ID: "stock", Part: "joint", Count: tabs * each}})}
	}
	sessions := make([]*journal.Session, tabs)
	var wg sync.WaitGroup
	for i := range sessions {
		store := open()
		wg.Go(func() {
			s, _, err := journal.Open(ctx, store, begin)
			if err != nil {
				t.Errorf("open: %v", err)
				return
			}
			sessions[i] = s
			for n := range each {
				id := fmt.Sprintf("tab-%d-%d", i, n)
				_, err := s.Do(ctx, "log failure: "+id, fieldkit.Moment{}, func() string { return id }, func(ed *journal.Edit) error {
					stock, _ := ed.Kit().Spares.Find("stock")
					stock.Count--
					ed.Put(stock)
					ed.Put(fieldkit.Failure{ID: id, Rig: "rig", On: fieldkit.Date{Year: 2026, Month: 5, Day: 14}, What: "snapped"})
					return nil
				})
				if err != nil {
					t.Errorf("%s: %v", id, err)
				}
			}
		})
	}
	wg.Wait()
	require.False(t, t.Failed())
	for _, s := range sessions {
		_, err := s.Refresh(ctx)
		require.NoError(t, err)
		require.Zero(t, s.Kit().Stock("joint"))
		require.Len(t, s.Kit().Failures.Slice(), tabs*each)
		require.Equal(t, uint64(tabs*each+1), s.Seq(), "one beginning")
		require.Equal(t, string(kitfile.Save(sessions[0].Kit())), string(kitfile.Save(s.Kit())))
	}
}
