// Package filesreport is what a command has written, for programs: which files, of which
// kind, for what and for whom, and which not.
package filesreport

import (
	"path"
	"strings"

	"seamrail/export/report"
)

// Schema names the layout of the JSON document. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-files/1"

// Document is what was written.
type Document struct {
	Schema  string          `json:"schema"`
	Title   string          `json:"title"`   // of the shot or the clip; "" for neither
	Plan    string          `json:"plan"`    // hash of the motion
	Verdict *report.Verdict `json:"verdict"` // null where no plan is written
	Folder  string          `json:"folder"`  // that all files are in; "" where names say it
	Files   []File          `json:"files"`
	LeftOut []LeftOut       `json:"left_out"`
	Words   []string        `json:"words"` // what there is to say besides
}

// File is one file.
type File struct {
	Name    string `json:"name"`
	Kind    string `json:"kind"` // "png", "csv"
	Purpose string `json:"purpose"`
	For     string `json:"for"` // "the set", "the rig" or "the edit"; "" where it is of no folder
}

// LeftOut are files that were not written, and why.
type LeftOut struct {
	Names []string `json:"names"`
	Why   string   `json:"why"`
}

// Written is the document of some files.
func Written(names ...string) Document {
	return Document{
		Schema: Schema, Files: report.Each(names, func(name string) File { return FileOf(name, "", "") }),
		LeftOut: []LeftOut{}, Words: []string{},
	}
}

// FileOf is a file of a name.
func FileOf(name, purpose, whom string) File {
	return File{name, strings.ToLower(strings.TrimPrefix(path.Ext(name), ".")), purpose, whom}
}

// Said adds what there is to say besides, a line each.
func (d Document) Said(text string) Document {
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" {
			d.Words = append(d.Words, line)
		}
	}
	return d
}
