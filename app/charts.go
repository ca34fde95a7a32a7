package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// pictured draws a picture with the table of its figures behind it; nothing where there
// is no picture.
func pictured(svg string, heads []string, rows [][]string) app.UI {
	if svg == "" {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("block").Body(
		app.Figure().Class("picture").Body(app.Raw(svg)),
		app.Details().Class("group").Body(
			app.Summary().Body(app.Text("The figures as a table")),
			app.Div().Class("in").Body(sheetTable(heads, rows)),
		),
	)
}

// sheetTable draws a table; the first of each row is its head.
func sheetTable(heads []string, rows [][]string) app.UI {
	return app.Table().Class("sheet").Body(
		app.THead().Body(app.Tr().Body(app.Range(heads).Slice(func(i int) app.UI { return app.Th().Scope("col").Text(heads[i]) }))),
		app.TBody().Body(app.Range(rows).Slice(func(i int) app.UI {
			return app.Tr().Body(app.Range(rows[i]).Slice(func(j int) app.UI {
				if j == 0 {
					return app.Th().Scope("row").Text(rows[i][j])
				}
				return app.Td().Text(rows[i][j])
			}))
		})),
	)
}
