package interchange

import (
	"sync"

	"trailfieldkit/fieldkit"
)

// last is the graph made last.
var last struct {
	sync.Mutex
	parts []fieldkit.Part
	links []fieldkit.Link
	graph *Graph
}

// Of is New, and gives the graph made last when it is asked for the same lists once
// more: the lists of a kit are never changed in place, so an edit elsewhere in the kit
// leaves the graph as it is.
func Of(parts []fieldkit.Part, links []fieldkit.Link) *Graph {
	last.Lock()
	defer last.Unlock()
	if last.graph == nil || !same(last.parts, parts) || !same(last.links, links) {
		last.parts, last.links, last.graph = parts, links, New(parts, links)
	}
	return last.graph
}

// same reports whether two lists are one.
func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}
