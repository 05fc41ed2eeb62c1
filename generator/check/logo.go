package check

// The club's logo: a picture that is on every page, and in every worksheet.

import (
	"fmt"
	"path"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/problem"
)

// MaxLogo is in bytes: every worksheet has a copy of its own.
const MaxLogo = 60 << 10

// Logo checks the logo that pack.yaml names, once the pictures have been looked into.
func Logo(p *lesson.Pack) problem.List {
	var problems problem.List
	at := p.Logo.At
	if p.Logo.Value == "" {
		return problems
	}
	if p.Club == "" {
		problems.Error(p.File, at, "logo", "there is a logo, and nothing that says whose it is",
			"add a line  club: …  with the club's name, for those who cannot see the logo")
	}
	name := p.LogoName()
	if shown := p.Pictures[name]; shown != nil && !strings.EqualFold(path.Ext(name), ".png") {
		problems.Error(p.File, at, "logo", "the logo must be a PNG: worksheets on paper show no other kind of picture",
			"save it as PNG, about 300 pixels high, and write its name here")
	} else if shown != nil && shown.Size > MaxLogo {
		problems.Error(p.File, at, "logo", fmt.Sprintf("the logo is %d kB, and would be in every worksheet",
			shown.Size>>10), fmt.Sprintf("make it smaller: about 300 pixels high, and %d kB at most", MaxLogo>>10))
	}
	pictureAt(p, p.File, p.Logo.Value, at, &problems)
	return problems
}
