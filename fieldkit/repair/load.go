package repair

import (
	"encoding/json"
	"fmt"

	"trailfieldkit/fieldkit"
)

// Format names the format of a file of repairs, Version what this program reads:
// a file of a later version is refused.
const (
	Format  = "trail-field-kit repairs"
	Version = "1.0"
)

// file is a file of repairs.
type file struct {
	Format  string  `json:"format"`
	Version string  `json:"version"`
	Source  string  `json:"source"`
	Repairs []Guide `json:"repairs"`
}

func LoadGuides(name string, data []byte) ([]Guide, error) {
	var f file
	if err := json.Unmarshal(data, &f); err != nil {
		return nil, err
	}
	var faults []fault
	for i, g := range f.Repairs {
		faults = append(faults, check(g, at("/repairs", i))...)
	}
	if len(faults) > 0 {
		return nil, &fieldkit.Error{Kind: fieldkit.BadInput, Where: name, What: fmt.Sprint(faults)}
	}
	return f.Repairs, nil
}
