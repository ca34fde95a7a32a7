package spares

import (
	"math"
	"math/rand/v2"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// Simulated is what a trip came to on average over many simulated ones.
type Simulated struct {
	Trips     int
	Home      float64 // share of trips on which every rig could drive home
	HomeError float64 // its standard error
	Lost      Hours   // on average
	LostError Hours   // its standard error
}

// Simulate drives a trip that many times with a packing list on board. Parts fail at
// random by their likelihoods; what the copies, the tools and the consumables on
// board allow is fixed; for the rest the rig goes to town, where the part is there or
// not and the day may be one on which nothing is sold, limps, is towed or fetched, as
// Cost says. It is there to check what Outcomes computes and shares no step of it.
// Special case: no trips give the zero Simulated.
func Simulate(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, pack fieldkit.Pack, trips int, src *rand.Rand) Simulated {
	m, counts := modelOf(kit, cat, guides, trip, pack, nil)
	return m.simulate(counts, trips, src)
}

func (m *model) simulate(counts []int, trips int, src *rand.Rand) Simulated {
	if trips <= 0 {
		return Simulated{}
	}
	home, sum, squares := 0, 0.0, 0.0
	for range trips {
		well, lost := m.drive(counts, src)
		if well {
			home++
		}
		sum += float64(lost)
		squares += float64(lost) * float64(lost)
	}
	n := float64(trips)
	share, mean := float64(home)/n, sum/n
	return Simulated{
		Trips: trips, Home: share, HomeError: math.Sqrt(share * (1 - share) / n),
		Lost: Hours(mean), LostError: Hours(math.Sqrt(math.Max(squares/n-mean*mean, 0) / n)),
	}
}

// event is a failure at a moment of the trip, from 0 to 1.
type event struct {
	at   float64
	risk int
}

// drive simulates one trip.
func (m *model) drive(counts []int, src *rand.Rand) (well bool, lost Hours) {
	var events []event
	for r := range m.risks {
		for at := src.ExpFloat64() / m.risks[r].expected; at < 1; at += src.ExpFloat64() / m.risks[r].expected {
			events = append(events, event{at, r})
		}
	}
	for i := range events { // by time; there are few
		for j := i; j > 0 && events[j].at < events[j-1].at; j-- {
			events[j], events[j-1] = events[j-1], events[j]
		}
	}
	left := append([]int(nil), counts...)
	well = true
	for _, e := range events {
		r := m.risks[e.risk]
		if m.fix(r, left, counts, src) {
			lost += r.with
			continue
		}
		lost += m.unfixed(r, src)
		well = well && !r.cost.Strands()
	}
	return well, lost
}

// fix takes the first spare in the order a crew would use them, if a repair for it is
// on board whole. Spares that count for part work that often, and are used up anyway.
func (m *model) fix(r risk, left, counts []int, src *rand.Rand) bool {
	if r.demand < 0 || !m.ready(r.demand, counts) {
		return false
	}
	for _, via := range m.demands[r.demand].reach {
		if left[via.item] > 0 {
			left[via.item]--
			return src.Float64() < via.worth
		}
	}
	return false
}

// unfixed is what one failure counts that is not fixed on the spot.
func (m *model) unfixed(r risk, src *rand.Rand) Hours {
	c := r.cost
	if c.Way != ByTown || c.Own.Town > 0 || m.trip.Yardstick == fieldkit.ByHome {
		return r.without
	}
	lost := c.Run.Drive
	if len(c.Run.Waits) > 0 {
		lost += c.Run.Waits[src.IntN(len(c.Run.Waits))]
	}
	if src.Float64() < c.Run.Stock {
		return Hours((lost + c.Run.Found).Hours())
	}
	return Hours((lost + c.Run.Else).Hours())
}
