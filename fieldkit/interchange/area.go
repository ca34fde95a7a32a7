package interchange

// findAreas numbers the parts so that two parts share a number only if some chain
// of ties, in any direction, connects them.
func (g *Graph) findAreas() {
	for i := range g.area {
		g.area[i] = -1
	}
	for start := range g.area {
		if g.area[start] >= 0 {
			continue
		}
		g.spread(start)
	}
}

func (g *Graph) spread(start int) {
	var queue []int
	reach := func(to int) {
		if g.area[to] < 0 {
			g.area[to], g.slot[to] = start, len(queue)
			queue = append(queue, to)
		}
	}
	reach(start)
	for i := 0; i < len(queue); i++ {
		at := queue[i]
		for _, e := range g.edges[at] {
			reach(e.to)
		}
		for _, e := range g.back[at] {
			reach(e.to)
		}
		for _, t := range g.tied[at] {
			// The first member speaks for all, so that a designation borne by many
			// parts is not gone through once for each.
			reach(t.members[0].part)
			if t.members[0].part == at {
				for _, m := range t.members {
					reach(m.part)
				}
			}
		}
	}
	g.size[start] = len(queue)
}
