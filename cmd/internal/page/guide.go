package page

import (
	"bytes"
	_ "embed"
	"html/template"
	"net/http"
	"strings"

	"seamrail/cmd/internal/guide"
)

//go:embed guide.html
var guidePage string

// guidePath is where the guide is, its first chapter, and each by its name behind it.
const guidePath = "/guide/"

// chapterPage is what the page of a chapter shows.
type chapterPage struct {
	Title    string
	Name     string
	Chapters []guide.Chapter
	Text     template.HTML // of our own files
	Before   *guide.Chapter
	After    *guide.Chapter
}

// showGuide shows a chapter of the guide, or says that there is none of that name.
func showGuide(w http.ResponseWriter, r *http.Request) {
	all := guide.Chapters()
	name := strings.TrimPrefix(r.URL.Path, guidePath)
	if name == "" {
		name = all[0].Name
	}
	shown := chapterPage{Name: name, Chapters: all}
	for i, c := range all {
		if c.Name != name {
			continue
		}
		var text bytes.Buffer
		_ = c.HTML(&text) // a buffer takes all
		shown.Title, shown.Text = c.Title(), template.HTML(text.String())
		if i > 0 {
			shown.Before = &all[i-1]
		}
		if i+1 < len(all) {
			shown.After = &all[i+1]
		}
	}
	if shown.Title == "" {
		refuse(w, http.StatusNotFound, "the guide has no such chapter")
		return
	}
	var b bytes.Buffer
	if err := template.Must(template.New("guide").Parse(theSite().versioned(guidePage))).Execute(&b, shown); err != nil {
		refuse(w, http.StatusInternalServerError, err.Error())
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write(b.Bytes()) // who has gone need not read it
}
