package format

import (
	"io"

	"seamrail/export/table/selectlist"
	"seamrail/motion/edit/selects"
)

var selectsTable = []Format{{
	Export: Export{Place: 7, Name: "selects", Help: "CSV, one row a kept take: which frames of it to use, and the retime"},
	File:   "selects.csv", Purpose: "the edit: which frames of each kept take to use",
	Takes: true,
	Write: func(of *Of, w io.Writer) error { return selectlist.Write(w, of.head(), handedOn(of)) },
}}

// handedOn are the takes to keep; without any, the one that the plan foresees.
func handedOn(of *Of) selects.Takes {
	if of.Takes.Plan == nil {
		return selects.Of(of.Plan, nil)
	}
	return of.Takes
}
