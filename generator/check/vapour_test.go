package check_test

// Tests of who may see an estimate of vapour, and of what may be made of it.

import (
	"strings"
	"testing"
)

func TestVapourIsForMentorsAndStandsAlone(t *testing.T) {
	const call = "vapour_ppm(1 g, 60.1 g/mol, 150 m^3)"
	const air = "find air in ppm to 0.1 = " + call
	fence := func(lines string) string { return "```work\n" + lines + "\n```\n\n" }
	notes := func(body string) string { return "## Mentor notes\n\n" + body }
	quoted := func(body string) string {
		return "> Mentor: look\n>\n> " + strings.ReplaceAll(strings.TrimSpace(body), "\n", "\n> ") + "\n\n"
	}
	for _, c := range []struct{ name, text, want string }{
		{"below Mentor notes", notes(fence(air)), ""},
		{"in a mentor's note", quoted(fence(air)), ""},
		{"where students see it", fence(air), "vapour-for-students"},
		{"a given that students see", fence("given g = " + call), "vapour-for-students"},
		{"within a longer calculation that students see", fence("find x in ppm to 1 = 2 * " + call), "vapour-for-students"},
		{"a slip that students get", fence("find x in ppm to 1 = 2 ppm\nslip " + call + " \"Look.\""),
			"vapour-for-students"},
		{"in a sentence that students read", "It is {" + call + "}.", "vapour-for-students"},
		{"in a program that students read", "```python filled\nx = {" + call + "}\n```\n", "vapour-for-students"},
		{"in a chart that students see",
			"```chart\ntitle \"Air\"\nvary x from 1 g to 2 g \"Mass\"\nline vapour_ppm(x, 60.1 g/mol, 150 m^3) " +
				"in ppm \"Air\"\naxis \"Air\"\n```\n", "vapour-for-students"},
		{"its name in a sentence for students", quoted(fence(air)) + "It is {air}.", "vapour-for-students"},
		{"its name in a calculation of students", quoted(fence(air)) + fence("find y in ppm to 1 = air * 2"), "mentors-name"},
		{"its name in a given of students", quoted(fence(air)) + fence("given y = air * 2"), "vapour-for-students"},
		{"its name in a slip of students", quoted(fence(air)) + fence("find y in ppm to 1 = 2 ppm\nslip air \"Look.\""),
			"vapour-for-students"},
		{"a name made of its name", quoted(fence(air+"\ngiven b = air * 2")) + fence("find y in ppm to 1 = b"),
			"vapour-alone mentors-name"},
		{"a given for mentors", notes(fence("given g = " + call)), "vapour-alone"},
		{"divided, for mentors", notes(fence("find x in ppm to 1 = " + call + " / 5")), "vapour-alone"},
		{"in a mentor's sentence", notes("It is {" + call + "}."), "vapour-alone"},
		{"its name in a mentor's sentence", notes(fence(air) + "It is {air}."), ""},
		{"worked on, for mentors", notes(fence(air + "\nfind b in ppm to 0.1 = air / 100")), "vapour-alone"},
		{"rounded to nothing", notes(fence("find air in ppm to 50 = " + call)), "vapour-rounded"},
		{"rounded to a little less", notes(fence("find air in ppm to 1 = vapour_ppm(2.7 g, 60.1 g/mol, 150 m^3)")), ""},
		{"worked on in a mentor's sentence", notes(fence(air) + "With the door open {air / 5 in ppm to 0.1}."),
			"vapour-alone"},
		{"rounded away in a mentor's sentence", notes(fence(air) + "It is {air in ppm to 1000}."), "vapour-rounded"},
		{"told again in a mentor's sentence", notes(fence(air) + "It is {air in ppm to 0.1}."), ""},
		{"worked on in a mentor's program", notes(fence(air) + "```python filled\nx = {air * 0}\n```"), "vapour-alone"},
		{"worked on in a mentor's chart", notes(fence(air) +
			"```chart\ntitle \"Air\"\nvary x from 1 to 2 \"Part\"\nline x * air in ppm \"Air\"\naxis \"Air\"\n```\n"),
			"vapour-alone"},
		{"a slip of its own find", notes(fence(air + "\nslip vapour_ppm(2 g, 60.1 g/mol, 150 m^3) \"Look.\"")), ""},
		{"a slip of another find", notes(fence("find x in ppm to 1 = 2 ppm\nslip " + call + " \"Look.\"")),
			"vapour-alone"},
		{"a mass below nothing", notes(fence("find air in ppm to 0.1 = vapour_ppm(-1 g, 60.1 g/mol, 150 m^3)")),
			"vapour-positive"},
		{"no mass", notes(fence("find air in ppm to 0.1 = vapour_ppm(0 g, 60.1 g/mol, 150 m^3)")), "vapour-positive"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := slugs(checked(t, c.text)); got != c.want {
				t.Errorf("problems are %q, want %q", got, c.want)
			}
		})
	}
}
