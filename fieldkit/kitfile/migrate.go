package kitfile

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// step brings a document from one version of the format to the next. It works on
// nodes, not on Go types: the types only know the present version. What it cannot
// make sense of it leaves as it is, for the reader to report.
type step struct {
	from, to version
	apply    func(root *node)
}

// steps is the chain that every older document goes through, oldest first. A new
// version adds a step at the end and a file of the version before to testdata.
var steps = []step{
	{version{0, 9}, version{1, 0}, from09},
}

// migrate brings the document to the present version. ok is false when no chain
// of steps leads there.
func migrate(d *document, v version, found *faults) (ok bool) {
	if v.major == current.major {
		return true
	}
	written := v
	for _, s := range steps {
		if s.from == v {
			s.apply(d.root)
			v = s.to
		}
	}
	if v.major != current.major {
		found.add("/version", nowhere, fieldkit.BadInput, fmt.Sprintf("version %s is older than any this program reads", written),
			"open the kit with the program that wrote it, save it there with a later version, and open that file")
		return false
	}
	d.root.member("version").text = v.String()
	return true
}

// rename gives a member of an object another name, unless that one is taken.
func (n *node) rename(old, now string) {
	if n.member(now) != nil {
		return
	}
	for i := range n.members {
		if n.members[i].key == old {
			n.members[i].key, n.members[i].was = now, old
		}
	}
}

// take removes a member from an object and returns it, nil if there is none.
func (n *node) take(key string) *node {
	for i, m := range n.members {
		if m.key == key {
			n.members = append(n.members[:i:i], n.members[i+1:]...)
			return m.value
		}
	}
	return nil
}

// put adds a member to an object.
func (n *node) put(key string, value *node) {
	n.members = append(n.members, member{key: key, value: value})
}

// entries gives the values of a list member of the object, none if it is not one.
func (n *node) entries(key string) []*node {
	if l := n.member(key); l != nil && l.kind == list {
		return l.items
	}
	return nil
}
