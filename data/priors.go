package data

import (
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

const priorsName = "catalog/priors.csv"

// priorColumns are the columns of the table of starting guesses, in their order.
var priorColumns = []string{
	"kind", "failures_per_million_km", "shape", "life_km", "wear_per_10000_km", "sudden_pct",
	"terrain", "tyre", "load", "water_km", "dust_pct", "if_broken", "standing",
}

// standing is what every row says of itself: nobody measured these.
const standing = "starting guess, not measured"

// priorRow is one row: what is taken for a part kind until the log says better.
type priorRow struct {
	prior fieldkit.Prior
	move  fieldkit.Move
}

// readPriors reads the table of starting guesses: a row a part kind. The error is a
// *fieldkit.Error with the line and the column.
func readPriors(files fs.FS) ([]priorRow, error) {
	text, err := fs.ReadFile(files, priorsName)
	if err != nil {
		return nil, &fieldkit.Error{Kind: fieldkit.NotFound, Where: priorsName, What: "the file cannot be read", Do: "put it back", Cause: err}
	}
	var rows []priorRow
	line := 0
	for written := range strings.Lines(string(text)) {
		line++
		// The last column alone holds a comma, and quotes around it: no need to bring a
		// reader of all CSV into the download.
		cells := strings.SplitN(strings.TrimSuffix(written, "\n"), ",", len(priorColumns))
		if len(cells) != len(priorColumns) {
			return nil, refusedPrior(line, "", fmt.Sprintf("%d columns stand here instead of %d", len(cells), len(priorColumns)), "write one row a line")
		}
		if line == 1 {
			if !slices.Equal(cells, priorColumns) {
				return nil, refusedPrior(line, "", "these are not the columns of the table", "write "+strings.Join(priorColumns, ","))
			}
			continue
		}
		row, err := priorOf(cells, line)
		if err != nil {
			return nil, err
		}
		rows = append(rows, row)
	}
	return rows, nil
}

func refusedPrior(line int, column, what, do string) error {
	where := fmt.Sprintf("%s, line %d", priorsName, line)
	if column != "" {
		where += ", " + column
	}
	return &fieldkit.Error{Kind: fieldkit.BadInput, Where: where, What: what, Do: do}
}

func priorOf(cells []string, line int) (row priorRow, err error) {
	whole := func(column, least, most int) int {
		if cells[column] == "" && least == 0 {
			return 0
		}
		n, parsing := strconv.Atoi(cells[column])
		if err == nil && (parsing != nil || n < least || n > most) {
			err = refusedPrior(line, priorColumns[column], fmt.Sprintf("%q is out of range", cells[column]), fmt.Sprintf("write a whole number from %d to %d", least, most))
		}
		return n
	}
	p := fieldkit.Prior{
		ID: cells[0], Rate: whole(1, 1, maxPerMillion), Shape: whole(2, 50, 500), Life: fieldkit.Distance(whole(3, 1000, 3_000_000)) * fieldkit.Kilometre,
		Sudden: whole(5, 0, 100), Terrain: whole(6, 0, 200), Tyre: whole(7, 0, 500), Load: whole(8, 0, 500),
		Water: fieldkit.Distance(whole(9, 0, 1000)) * fieldkit.Kilometre, Dust: whole(10, 0, 500),
	}
	if err != nil {
		return row, err
	}
	if cells[4] != "" {
		if p.Wear, err = fieldkit.ParseValue(cells[4]); err != nil || p.Wear.Dim == fieldkit.DimText || p.Wear.Base <= 0 {
			return row, refusedPrior(line, priorColumns[4], fmt.Sprintf("%q is not a size", cells[4]), "write a size above nothing with its unit")
		}
	}
	move := fieldkit.Move(cells[11])
	if !slices.Contains(fieldkit.Moves, move) {
		return row, refusedPrior(line, priorColumns[11], fmt.Sprintf("%q says not whether it can move", cells[11]), "write limps, towed or stays")
	}
	if strings.Trim(cells[12], `"`) != standing {
		return row, refusedPrior(line, priorColumns[12], fmt.Sprintf("%q hides what the row is", cells[12]), "write "+standing)
	}
	return priorRow{p, move}, nil
}

// Bounds on the table of starting guesses.
const (
	maxPerMillion = 500 // one failure every 2000 km
	// maxApart is how far the mean life of the Weibull law and that of the rate may
	// lie apart, as a factor: both are to say the same of parts of all ages.
	maxApart = 1.3
)

// checkPriors holds the rows against the part kinds: one row a kind, none besides, a
// wear for each kind with a reading, and a rate that fits the lives.
func checkPriors(rows []priorRow, kinds []fieldkit.PartKind) error {
	seen := map[string]bool{}
	for i, row := range rows {
		p, line := row.prior, i+2
		k := slices.IndexFunc(kinds, func(k fieldkit.PartKind) bool { return k.ID == p.ID })
		switch {
		case k < 0:
			return refusedPrior(line, priorColumns[0], fmt.Sprintf("there is no part kind %q", p.ID), "add it or correct the id")
		case seen[p.ID]:
			return refusedPrior(line, priorColumns[0], fmt.Sprintf("%q stands twice", p.ID), "keep one of the two")
		case (kinds[k].Wear != nil) != !p.Wear.IsZero():
			return refusedPrior(line, priorColumns[4], "a kind with a wear reading has a wear, others have none", "add it or take it out")
		case kinds[k].Wear != nil && kinds[k].Wear.Limit.Dim != p.Wear.Dim:
			return refusedPrior(line, priorColumns[4], fmt.Sprintf("%q is not measured as the limit is", p.Wear), "write it in a unit of the limit's")
		}
		seen[p.ID] = true
		shape := float64(p.Shape) / 100
		mean := float64(p.Life) / float64(fieldkit.Kilometre) * math.Gamma(1+1/shape)
		if apart := mean * float64(p.Rate) / 1e6; apart > maxApart || apart < 1/maxApart {
			return refusedPrior(line, priorColumns[3], fmt.Sprintf("a mean life of %.0f km does not go with %d failures in a million km", mean, p.Rate), "change one of the two")
		}
	}
	for _, k := range kinds {
		if !seen[k.ID] {
			return refusedPrior(len(rows)+2, priorColumns[0], fmt.Sprintf("the part kind %q has no row", k.ID), "add one")
		}
	}
	return nil
}

// guessed gives the kinds their rows.
func guessed(kinds []fieldkit.PartKind, rows []priorRow) []fieldkit.PartKind {
	kinds = slices.Clone(kinds)
	for i := range kinds {
		for _, row := range rows {
			if row.prior.ID == kinds[i].ID {
				kinds[i].Prior, kinds[i].IfBroken, kinds[i].Per10000 = row.prior, row.move, float64(row.prior.Rate)/100
			}
		}
	}
	return kinds
}
