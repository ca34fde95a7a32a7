package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strconv"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// kitOptionsHelp is the part of a command's help that all desk commands share.
const kitOptionsHelp = `  -kit FILE   the kit file to work on (the demo kit if left out)
  -json       print one JSON object instead of text
`

// kitOptions are what all desk commands understand.
type kitOptions struct {
	*flag.FlagSet
	kit  *string
	json *bool
}

func newKitOptions(name string) kitOptions {
	set := options(name)
	return kitOptions{set, set.String("kit", "", ""), set.Bool("json", false, "")}
}

// read takes the options out of the words, wherever they stand, and returns the
// other words. After -- all words are taken as they are; a dash before a figure is a
// word anyhow: -214, -6 JIC. It says itself what is wrong; false means that the
// command ends with askedWrong.
func (o kitOptions) read(args []string, stderr io.Writer) (words []string, ok bool) {
	for len(args) > 0 {
		options := args[:beforeDashSize(args)]
		if len(options) == 0 {
			words, args = append(words, args[0]), args[1:]
			continue
		}
		if !parse(o.FlagSet, options, -1, stderr) {
			return nil, false
		}
		left := o.Args()
		taken := len(options) - len(left)
		if taken > 0 && args[taken-1] == "--" {
			return append(words, args[taken:]...), true
		}
		if len(left) > 0 {
			words, taken = append(words, left[0]), taken+1
		}
		args = args[taken:]
	}
	return words, true
}

// beforeDashSize counts the arguments before the first one that is a dash and a figure.
func beforeDashSize(args []string) int {
	for i, a := range args {
		switch {
		case a == "--":
			return len(args)
		case len(a) > 1 && a[0] == '-' && a[1] >= '0' && a[1] <= '9':
			return i
		}
	}
	return len(args)
}

// wrong says in one line how a command was asked wrongly.
func (o kitOptions) wrong(stderr io.Writer, format string, args ...any) int {
	fmt.Fprintf(stderr, "fieldkit %s: %s; run fieldkit help %s\n", o.Name(), fmt.Sprintf(format, args...), o.Name())
	return askedWrong
}

// load reads the kit asked for.
func (o kitOptions) load() (fieldkit.Kit, error) {
	if *o.kit == "" {
		return data.DemoKit(), nil
	}
	file, err := readFile(*o.kit)
	if err != nil {
		return fieldkit.Kit{}, err
	}
	return kitfile.Load(*o.kit, file)
}

// readFile reads a kit file, at most one byte more than a kit may have: what is
// longer the loader refuses.
func readFile(path string) ([]byte, error) {
	refuse := func(what, do string) error {
		return &fieldkit.Error{Kind: fieldkit.NotFound, Where: path, What: what, Do: do}
	}
	f, err := os.Open(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, refuse("there is no such file", "check the path")
	case errors.Is(err, fs.ErrPermission):
		return nil, refuse("this file may not be read", "check its permissions")
	case err != nil:
		return nil, refuse("it cannot be opened: "+err.Error(), "check the path")
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, refuse("this is a folder", "name the kit file in it")
	}
	file, err := io.ReadAll(io.LimitReader(f, fieldkit.MaxFileSize+1))
	if err != nil {
		return nil, refuse("it cannot be read: "+err.Error(), "check the disk it is on")
	}
	return file, nil
}

// complainKit prints why a kit could not be loaded, one problem a line.
func (o kitOptions) complainKit(stderr io.Writer, err error) int {
	for line := range strings.SplitSeq(err.Error(), "\n") {
		fmt.Fprintf(stderr, "fieldkit %s: %s\n", o.Name(), line)
	}
	return notDone
}

// printJSON writes one indented object.
func printJSON(w io.Writer, v any) {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		panic("fieldkit: printing a value of its own: " + err.Error()) // only what JSON cannot hold
	}
}

// amount is a quantity in JSON: its number, and the unit it is in. A measurement
// that is words, such as a thread, is a text without a unit.
type amount struct {
	Value any    `json:"value"`
	Unit  string `json:"unit"`
}

// jsonUnits gives the unit of each dimension in JSON, with its base units, and what
// is subtracted after dividing. They are the metric units of package fieldkit.
var jsonUnits = map[fieldkit.Dimension]struct {
	unit string
	base float64
	zero float64 // the reading at no base units, with its sign turned
}{
	fieldkit.DimLength:      {"mm", float64(fieldkit.Millimetre), 0},
	fieldkit.DimDistance:    {"km", float64(fieldkit.Kilometre), 0},
	fieldkit.DimMass:        {"kg", float64(fieldkit.Kilogram), 0},
	fieldkit.DimVolume:      {"L", float64(fieldkit.Litre), 0},
	fieldkit.DimTorque:      {"N·m", float64(fieldkit.NewtonMetre), 0},
	fieldkit.DimPressure:    {"kPa", float64(fieldkit.Kilopascal), 0},
	fieldkit.DimTemperature: {"°C", 1800, 273.15},
	fieldkit.DimAngle:       {"°", 3600, 0},
	fieldkit.DimVoltage:     {"V", 1e6, 0},
	fieldkit.DimCurrent:     {"A", 1e6, 0},
	fieldkit.DimCount:       {"", 1e6, 0},
}

func amountOf(v fieldkit.Value) amount {
	u, ok := jsonUnits[v.Dim]
	if !ok {
		return amount{v.Text, ""}
	}
	return amount{figure(float64(v.Base)/u.base - u.zero), u.unit}
}

// figure rounds a computed number to 12 digits: what follows is noise that differs
// between processors.
func figure[T ~float64](x T) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(float64(x), 'g', 12, 64), 64)
	if err != nil {
		return float64(x)
	}
	return rounded
}

func massOf(m fieldkit.Mass) amount {
	return amountOf(fieldkit.Value{Dim: fieldkit.DimMass, Base: int64(m)})
}

func volumeOf(v fieldkit.Volume) amount {
	return amountOf(fieldkit.Value{Dim: fieldkit.DimVolume, Base: int64(v)})
}

func moneyOf(m fieldkit.Money) amount { return amount{float64(m.Cents) / 100, m.Currency} }

// list makes nothing an empty JSON list instead of null.
func list[T any](of []T) []T {
	if of == nil {
		return []T{}
	}
	return of
}
