package kitfile

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// step brings a document from one version of the format to the next.
type step struct {
	from, to version
	apply    func(root *node, found *faults)
}

// steps is the chain that every older document goes through, oldest first.
var steps = []step{}

// migrate brings the document to the present version. ok is false when no step
// begins at its version.
func migrate(d *document, v version, found *faults) (ok bool) {
	if v.major >= current.major {
		return true
	}
	for _, s := range steps {
		if s.from == v {
			s.apply(d.root, found)
			v = s.to
		}
	}
	if v != current {
		found.add("/version", nowhere, fieldkit.BadInput, fmt.Sprintf("version %s is not one this program can read", v), "open the kit with the program that wrote it and save it again")
		return false
	}
	d.root.member("version").text = current.String()
	return true
}
