package interchange

import (
	"sync"

	"trailfieldkit/fieldkit"
)

// last is the graph made last, and the lists it was made of.
var last struct {
	sync.Mutex
	parts fieldkit.List[fieldkit.Part]
	links fieldkit.List[fieldkit.Link]
	graph *Graph
}

// Of is New for the lists of a kit, and goes on from the graph made last: the lists of a
// kit are never changed in place, so only what an edit touched is put together anew, and
// an edit elsewhere in the kit leaves the graph as it is.
func Of(parts fieldkit.List[fieldkit.Part], links fieldkit.List[fieldkit.Link]) *Graph {
	last.Lock()
	defer last.Unlock()
	if last.graph == nil {
		last.graph = newGraph(parts, links)
	} else if !last.parts.Same(parts) || !last.links.Same(links) {
		gone, came := fieldkit.Changed(last.parts, parts)
		gaveUp, given := fieldkit.Changed(last.links, links)
		if len(gone)+len(came)+len(gaveUp)+len(given) > (parts.Len()+links.Len())/manyChanges {
			last.graph = newGraph(parts, links)
		} else {
			last.graph = last.graph.edited(gone, came, gaveUp, given)
		}
	}
	last.parts, last.links = parts, links
	return last.graph
}

// manyChanges is the share of the records from which on another graph costs less than
// a changed one.
const manyChanges = 4
