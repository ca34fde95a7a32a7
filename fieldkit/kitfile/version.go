package kitfile

import (
	"fmt"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// version is the version of a file's format.
type version struct{ major, minor int }

var current = version{fieldkit.MajorVersion, fieldkit.MinorVersion}

func (v version) String() string { return fmt.Sprintf("%d.%d", v.major, v.minor) }

func (v version) newerMinor() bool { return v.major == current.major && v.minor > current.minor }

// parseVersion reads "1.0".
func parseVersion(s string) (version, bool) {
	major, minor, found := strings.Cut(s, ".")
	a, errA := strconv.ParseUint(major, 10, 15)
	b, errB := strconv.ParseUint(minor, 10, 15)
	v := version{int(a), int(b)}
	return v, found && errA == nil && errB == nil && v.String() == s
}

// readVersion finds out what a document is. ok is false when it is nothing this
// program can read, with the reason in found.
func readVersion(root *node, found *faults) (v version, ok bool) {
	if root.kind != object {
		found.add("", root.start, fieldkit.BadInput, "this is not a kit file: it is not a group in { }", "choose a file that this program saved")
		return v, false
	}
	format := root.member("format")
	if format == nil || format.kind != text || format.text != fieldkit.Format {
		found.add("/format", nowhere, fieldkit.BadInput, fmt.Sprintf("this is not a kit file: its format is not %q", fieldkit.Format), "choose a file that this program saved")
		return v, false
	}
	written := root.member("version")
	if written == nil {
		found.add("/version", nowhere, fieldkit.BadInput, `"version" is missing`, fmt.Sprintf("add it: %q", current))
		return v, false
	}
	if written.kind != text {
		found.add("/version", nowhere, fieldkit.BadInput, "the version is not a text", fmt.Sprintf("write %q in double quotes", current))
		return v, false
	}
	if v, ok = parseVersion(written.text); !ok {
		found.add("/version", nowhere, fieldkit.BadInput, fmt.Sprintf("%s is not a version", quoted(written.text)), fmt.Sprintf("write %q", current))
		return v, false
	}
	if v.major > current.major {
		found.add("/version", nowhere, fieldkit.TooNew, fmt.Sprintf("this kit is of version %s, written by a newer program; this one reads up to version %d", v, current.major), "update this program, then open the kit again; nothing was changed")
		return v, false
	}
	return v, true
}
