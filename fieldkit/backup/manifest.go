package backup

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// Format names the archive's format in its manifest.
const Format = "trail-field-kit-backup"

// Version of the archives written here. A newer minor version may add files and
// fields, which are left aside; a newer major version is refused.
const (
	MajorVersion = 1
	MinorVersion = 1 // 1.1 added the history
)

const (
	manifestName = "manifest.json"
	kitName      = "kit.json"
	historyName  = "history.json"
	photoFolder  = "photos/"
)

// manifest lists what the archive holds.
type manifest struct {
	Format  string          `json:"format"`
	Version string          `json:"version"`
	Made    fieldkit.Moment `json:"-"`
	MadeAt  string          `json:"made"`
	Kit     string          `json:"kit"` // its name
	Records int             `json:"records"`
	Photos  int             `json:"photos"`
	Missing []string        `json:"missing,omitempty"` // photos the kit shows that were lost before
	Files   []listed        `json:"files"`
}

// listed is one file of the archive.
type listed struct {
	Path string `json:"path"`
	Type string `json:"type"` // MIME type
	Size int64  `json:"size"`
	Sum  string `json:"sha256"` // lower-case hex
}

func readManifest(raw []byte) (manifest, error) {
	var m manifest
	if err := json.Unmarshal(raw, &m); err != nil {
		return manifest{}, bad(manifestName, "it is not JSON: "+err.Error())
	}
	if m.Format != Format {
		return manifest{}, bad(manifestName, fmt.Sprintf("it says it is a %.40q", m.Format))
	}
	major, _, ok := strings.Cut(m.Version, ".")
	n, err := strconv.Atoi(major)
	if !ok || err != nil || n < 1 {
		return manifest{}, bad(manifestName, fmt.Sprintf("%.40q is not a version", m.Version))
	}
	if n > MajorVersion {
		return manifest{}, &fieldkit.Error{Kind: fieldkit.TooNew,
			What: fmt.Sprintf("the backup is of version %.40q, made by a newer app", m.Version), Do: "update the app, then restore again"}
	}
	if err := m.Made.UnmarshalText([]byte(m.MadeAt)); err != nil {
		return manifest{}, bad(manifestName, fmt.Sprintf("%.40q is not a moment", m.MadeAt))
	}
	if m.Photos < 0 || m.Records < 0 {
		return manifest{}, bad(manifestName, "it counts less than nothing")
	}
	return m, nil
}

// newerMinor reports an archive that may hold files not known here.
func (m manifest) newerMinor() bool {
	_, minor, _ := strings.Cut(m.Version, ".")
	n, err := strconv.Atoi(minor)
	return err == nil && n > MinorVersion
}

// photoTypes are the kinds of photo kept, and how their files end.
var photoTypes = []struct{ mime, ending string }{
	{"image/jpeg", ".jpg"}, {"image/png", ".png"}, {"image/webp", ".webp"},
}

func endingOf(mime string) (string, bool) {
	for _, t := range photoTypes {
		if t.mime == mime {
			return t.ending, true
		}
	}
	return "", false
}

// photoHash returns the hash a photo's file is named by.
func (f listed) photoHash() (string, bool) {
	ending, ok := endingOf(f.Type)
	if !ok {
		return "", false
	}
	name, inFolder := strings.CutPrefix(f.Path, photoFolder)
	hash, ends := strings.CutSuffix(name, ending)
	return hash, inFolder && ends && isHash(hash)
}

func isHash(s string) bool {
	return len(s) == 64 && strings.Trim(s, "0123456789abcdef") == ""
}

// photosOf lists the photos a kit shows, sorted, each once.
func photosOf(k fieldkit.Kit) []string {
	var all []string
	for _, f := range k.Failures.All() {
		all = append(all, f.Photos...)
	}
	for _, i := range k.Inspections.All() {
		all = append(all, i.Photos...)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

func bad(where, what string) *fieldkit.Error {
	return &fieldkit.Error{Kind: fieldkit.BadInput, Where: where, What: what, Do: "use another backup; nothing was changed"}
}
