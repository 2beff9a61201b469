package format

import (
	"io"

	"seamrail/export/selects"
	"seamrail/motion/kept"
)

var selectsTable = []Format{{
	Export: Export{Place: 7, Name: "selects", Help: "CSV, one row a kept take: which frames of it to use, and the retime"},
	File:   "selects.csv", Purpose: "the edit: which frames of each kept take to use",
	Takes: true,
	Write: func(of *Of, w io.Writer) error { return selects.Write(w, of.head(), handedOn(of)) },
}}

// handedOn are the takes to keep; without any, the one that the plan foresees.
func handedOn(of *Of) kept.Takes {
	if of.Takes.Plan == nil {
		return kept.Of(of.Plan, nil)
	}
	return of.Takes
}
