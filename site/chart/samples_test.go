package chart

import "math"

var none = math.NaN()

// sample is a chart of each kind as a lesson would have it, and the awkward ones, by the name of its golden file.
func samples() map[string]func() Picture {
	return map[string]func() Picture{
		"lines":     func() Picture { return sampleLines().Draw() },
		"lines-six": func() Picture { return sampleSix().Draw() },
		"lines-empty": func() Picture {
			return Lines{Chart: head("none"), X: Axis{Title: "Time (s)"}, Y: Axis{Title: "Distance (cm)"}}.Draw()
		},
		"dots":       func() Picture { return sampleDots().Draw() },
		"dots-equal": func() Picture { return sampleEqual().Draw() },
		"dots-many":  func() Picture { return sampleMany(4, 500).Draw() },
		"bars":       func() Picture { return sampleBars().Draw() },
		"bars-below": func() Picture { return sampleBelow().Draw() },
		"path":       func() Picture { return samplePath().Draw() },
		"steps":      func() Picture { return sampleSteps().Draw() },
		"fitted":     func() Picture { return sampleFitted().Draw() },
		"steps-none": func() Picture { return Steps{Chart: head("steps"), Cycle: Axis{Title: "Cycle"}}.Draw() },
	}
}

func head(id string) Chart {
	return Chart{ID: id, Title: "A chart", Description: "What it shows, in words."}
}

func sampled(label string, low, high float64, n int, f func(float64) float64) Curve {
	c := Curve{Label: label}
	for i := range n {
		x := low + (high-low)*float64(i)/float64(n-1)
		c.X, c.Y = append(c.X, x), append(c.Y, f(x))
	}
	return c
}

func sampleLines() Lines {
	rotations := func(d float64) func(float64) float64 { return func(x float64) float64 { return x / (math.Pi * d) } }
	return Lines{
		Chart: head("rotations"), X: Axis{Title: "Distance (cm)"}, Y: Axis{Title: "Rotations (rot)"},
		Curves: []Curve{
			sampled("Wheel of 65 mm", 0, 150, 100, rotations(6.5)),
			sampled("Wheel of 48 mm", 0, 150, 100, rotations(4.8)),
			sampled("A wheel that sinks in", 0, 150, 100, func(x float64) float64 { return 2 + x*x/4000 }),
		},
		Marks: []Mark{
			{"Lock gate", 120, []float64{rotations(6.5)(120), rotations(4.8)(120), none}},
			{"Quay", 140, []float64{rotations(6.5)(140), none, none}},
			{"", 30, []float64{rotations(6.5)(30), rotations(4.8)(30), 2.225}},
		},
	}
}

func sampleSix() Lines {
	l := Lines{Chart: head("six"), X: Axis{Title: "Angle (deg)"}, Y: Axis{Title: "Sideways (mm)"}}
	m := Mark{X: 45}
	for i := range 8 {
		k := float64(i) + 1
		f := func(x float64) float64 { return 100 * k * math.Sin(x*math.Pi/180) }
		l.Curves = append(l.Curves, sampled("Base", -90, 90, 181, f))
		m.Y = append(m.Y, f(45))
	}
	l.Marks = []Mark{m}
	return l
}

func sampleDots() Dots {
	return Dots{
		Chart: head("stops"), Value: Axis{Title: "Stop, from the start line (cm)"}, Target: 120,
		Groups: []Group{
			{"Heron", []float64{118.8, 120.3, 119.6, 121.0, 119.1, 119.6, 119.7, 120.2}, nil, 119.79},
			{"Dipper", []float64{122, 123, 123, 124, 122, 123, 129.5}, []bool{6: true}, 123.8},
			{"Coot, new tyres", []float64{116.5, 117.2, 118.9, 121.4, 115.9, 119}, nil, 118.15},
		},
		Words: DotWords{"one run", "many runs", "an odd run", "mean", "target"},
	}
}

func sampleEqual() Dots {
	d := sampleDots()
	d.Chart = head("equal")
	d.Value = Axis{Title: "Where the front of the robot stopped behind the start line (cm)"}
	equal := func(v float64, n int) (vs []float64) {
		for range n {
			vs = append(vs, v)
		}
		return vs
	}
	d.Groups = []Group{
		{"Heron", append(equal(120, 12), equal(121, 4)...), nil, 120.25},
		{"Dipper with the long arm", equal(119, 20), nil, 119},
		{"Coot", nil, nil, none},
	}
	return d
}

// sampleMany has runs that are spread like the sum of three throws.
func sampleMany(groups, runs int) Dots {
	d := sampleDots()
	d.Chart = head("many")
	d.Groups = nil
	seed := uint64(7)
	next := func() float64 {
		seed = seed*6364136223846793005 + 1442695040888963407
		return float64(seed>>40) / (1 << 24)
	}
	for i := range groups {
		g := Group{Name: "Base " + string(rune('A'+i%26)), Mean: 120 + float64(i%5)}
		for range runs {
			v := 120 + float64(i%5) + 4*(next()+next()+next()-1.5)
			g.Values, g.Odd = append(g.Values, v), append(g.Odd, math.Abs(v-g.Mean) > 5)
		}
		d.Groups = append(d.Groups, g)
	}
	return d
}

func sampleBars() Bars {
	return Bars{
		Chart: head("errors"), Value: Axis{Title: "Percent error (%)"}, Target: 2,
		Groups: []Bar{{"Heron", 0.8, 0.3, 1.3}, {"Dipper", 3.2, 2.1, 4.3}, {"Coot", 1.6, none, none}},
		Words:  BarWords{"mean", "interval", "wanted"},
	}
}

func sampleBelow() Bars {
	return Bars{
		Chart: head("drift"), Value: Axis{Title: "Drift to the left (mm)"}, Target: none,
		Groups: []Bar{{"Heron", -4.2, -6, -2.4}, {"Dipper", 12.5, 8, 17}, {"Coot", none, none, none}},
		Words:  BarWords{"mean", "interval", "wanted"},
	}
}

func samplePath() Path {
	return Path{
		Chart: head("path"), Forward: Axis{Title: "Forward (cm)"}, Sideways: Axis{Title: "Sideways (cm)"},
		Paths: []Curve{
			{"Heron", []float64{0, 30, 60, 90, 120}, []float64{0, 0.2, 0.9, 1.9, 3.4}},
			{"Dipper", []float64{0, 30, 60, 90, 120}, []float64{0, -0.4, -0.7, -1.4, -1.8}},
		},
		Words: PathWords{"straight ahead", "start"},
	}
}

func sampleSteps() Steps {
	cycles := []float64{1, 2, 3, 4}
	return Steps{
		Chart: head("steps"), Cycle: Axis{Title: "Cycle"}, Offset: Axis{Title: "Offset (mm)"}, Step: Axis{Title: "Step (mm)"},
		Groups: []Stepped{
			{"Heron", []Stepping{
				{cycles, []float64{-10, -22, -29, -41}, []float64{-10, -12, -7, -12}, -10.25, -14, -6.5},
				{cycles, []float64{9, 21, 33, 41}, []float64{9, 12, 12, 8}, none, none, none},
			}, []float64{0, 6, 8.5, 10.4, 12}},
			{"Dipper", []Stepping{{cycles, []float64{2, -4, 3, 1}, []float64{2, -6, 7, -2}, 0.25, -8, 9}}, nil},
		},
		Words: StepWords{[]string{"as built", "wheels swapped"}, "by chance alone", "mean step"},
	}
}

func sampleFitted() Fitted {
	return Fitted{
		Chart: head("fitted"), X: Axis{Title: "Rotations"}, Y: Axis{Title: "Stop (cm)"}, Left: Axis{Title: "Off line (cm)"},
		Groups: []FittedGroup{
			{"Heron", []float64{1, 2, 3, 4}, []float64{20.6, 40.7, 61.4, 81.5}, 0.2, 20.34},
			{"Coot", []float64{1, 2, 4}, []float64{16, 31.7, 60.9}, none, none},
		},
	}
}
