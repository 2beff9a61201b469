package report

import "seamrail/export/textpage"

// page is a report being written.
type page struct{ textpage.Page }

// The colours, by shorter names.
const (
	bold   = textpage.Bold
	dim    = textpage.Dim
	red    = textpage.Red
	green  = textpage.Green
	yellow = textpage.Yellow
	cyan   = textpage.Cyan
)
