package interchange

import (
	"sync"

	"trailfieldkit/fieldkit"
)

// last is the graph made last.
var last struct {
	sync.Mutex
	parts fieldkit.List[fieldkit.Part]
	links fieldkit.List[fieldkit.Link]
	graph *Graph
}

// Of is New, and gives the graph made last when it is asked for the same lists once
// more: the lists of a kit are never changed in place, so an edit elsewhere in the kit
// leaves the graph as it is.
func Of(parts fieldkit.List[fieldkit.Part], links fieldkit.List[fieldkit.Link]) *Graph {
	last.Lock()
	defer last.Unlock()
	if last.graph == nil || !last.parts.Same(parts) || !last.links.Same(links) {
		last.parts, last.links, last.graph = parts, links, New(parts.Slice(), links.Slice())
	}
	return last.graph
}
