package tables

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
)

// confidences are what the confidence column may say, see the package comment.
var confidences = []string{"high", "medium", "low"}

func (l *loader) checkFile(file []byte) error {
	switch {
	case len(file) == 0:
		return l.refuse("", "the file is empty", "write the names of the columns and the rows")
	case len(file) > MaxFile:
		return &fieldkit.Error{Kind: fieldkit.TooBig, Where: l.where, What: fmt.Sprintf("the file has %d bytes, more than the most, %d", len(file), MaxFile), Do: "split the table"}
	case !utf8.Valid(file):
		return l.refuse("", "the file is not UTF-8", "save it as UTF-8")
	case bytes.HasPrefix(file, []byte("\ufeff")):
		return l.refuse("", "the file begins with a byte order mark", "save it as UTF-8 without one")
	case bytes.IndexByte(file, '\r') >= 0:
		l.line = 1 + bytes.Count(file[:bytes.IndexByte(file, '\r')], []byte("\n"))
		return l.refuse("", "the line ends with a carriage return", "end lines with a line feed alone")
	case file[len(file)-1] != '\n':
		return l.refuse("", "the last line does not end", "end it with a line feed")
	case len(file) == 1 || file[len(file)-2] == '\n':
		l.line = bytes.Count(file, []byte("\n"))
		return l.refuse("", "the line is blank", "take it out")
	}
	return nil
}

func (l *loader) checkHeader(header []string) error {
	for i, c := range l.table.Columns {
		switch {
		case i >= len(header):
			return l.refuse("", fmt.Sprintf("column %q is missing", c.Name), "add it")
		case header[i] != c.Name:
			return l.refuse("", fmt.Sprintf("column %d is called %q instead of %q", i+1, header[i], c.Name), "keep names and order of the columns")
		}
	}
	if extra := len(l.table.Columns); len(header) > extra {
		return l.refuse("", fmt.Sprintf("column %q is not known", header[extra]), "describe it or take it out")
	}
	return nil
}

func (l *loader) checkCell(c Column, cell string) error {
	switch {
	case cell != strings.TrimSpace(cell):
		return l.refuse(c.Name, fmt.Sprintf("%q has blanks around it", cell), "take them out")
	case strings.IndexFunc(cell, unicode.IsControl) >= 0:
		return l.refuse(c.Name, fmt.Sprintf("%q goes over more than one line", cell), "write it in one line")
	case cell == "" && (c.form == word || c.form == must):
		return l.refuse(c.Name, "nothing is written", "write it or leave the row out")
	case c.Name == "confidence" && !slices.Contains(confidences, cell):
		return l.refuse(c.Name, fmt.Sprintf("%q is none of %s", cell, strings.Join(confidences, ", ")), "write one of them")
	case cell == "" || c.form == word || c.form == words:
		return nil
	}
	parts := []string{cell}
	if c.form == figures {
		parts = strings.FieldsFunc(cell, func(r rune) bool { return r == '/' || r == '-' })
	}
	for _, part := range parts {
		x, ok := plainNumber(part)
		switch {
		case !ok:
			return l.refuse(c.Name, fmt.Sprintf("%q is not a number", cell), "write digits with a decimal point")
		case x < c.low || x > c.high:
			return l.refuse(c.Name, fmt.Sprintf("%q is not between %v and %v", cell, c.low, c.high), "check the figure and its unit")
		}
	}
	return nil
}

// plainNumber reads digits with at most one point, after a minus if there is one.
func plainNumber(s string) (float64, bool) {
	digits := strings.TrimPrefix(s, "-")
	if strings.Trim(digits, "0123456789.") != "" || strings.HasPrefix(digits, ".") || strings.HasSuffix(digits, ".") {
		return 0, false
	}
	x, err := strconv.ParseFloat(s, 64)
	return x, err == nil
}
