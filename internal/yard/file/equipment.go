package file

import (
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

func readTruck(t *table, y *yard.Yard) {
	k, axles := yard.Truck{}, yard.Axles{}
	var behind quantity.Length
	t.readName(&k.Name)
	t.read(
		number("tank", quantity.ParseVolume, &k.Tank).needed().aboveZero(),
		number("empty_weight", quantity.ParseMass, &k.Empty),
		number("gross_limit", quantity.ParseMass, &k.Gross),
		count("nozzles", &k.Nozzles),
		number("speed", quantity.ParseSpeed, &k.Speed).aboveZero(),
		number("spray_width", as[quantity.Width](quantity.ParseWidth), &k.Width).aboveZero(),
		number("boom_flow", quantity.ParseFlow, &k.Boom).aboveZero(),
		number("front_empty", quantity.ParseMass, &axles.FrontEmpty), number("front_limit", quantity.ParseMass, &axles.FrontLimit).aboveZero(),
		number("rear_limit", quantity.ParseMass, &axles.RearLimit).aboveZero(), number("wheelbase", quantity.ParseWidth, &axles.Wheelbase).aboveZero(),
		number("tank_ahead", quantity.ParseWidth, &axles.Ahead), number("tank_behind", quantity.ParseWidth, &behind),
	)
	t.readAxles(&k, axles, behind)
	t.refuse(t.knows("gross_limit", "empty_weight") && k.Gross <= k.Empty, "gross_limit",
		"gross_limit %v is not above empty_weight %v", show(k.Gross), show(k.Empty))
	t.both("gross_limit", "empty_weight")
	y.Trucks = append(y.Trucks, k)
}

// readAxles takes the axles of a truck, of which all or nothing is said.
func (t *table) readAxles(k *yard.Truck, a yard.Axles, behind quantity.Length) {
	keys, some := []string{"front_empty", "front_limit", "rear_limit", "wheelbase", "empty_weight"}, false
	for _, key := range keys[:4] {
		some = some || t.has(key)
	}
	if some = some || t.has("tank_ahead") || t.has("tank_behind"); !some {
		return
	}
	whole := t.knows(keys...) && (t.has("tank_ahead") || t.has("tank_behind"))
	t.refuse(!whole, "front_limit", "the axles take front_empty, front_limit, rear_limit, wheelbase, empty_weight, and tank_ahead or tank_behind; allowed: all of them or none")
	t.refuse(t.has("tank_ahead") && t.has("tank_behind"), "tank_behind", "the tank's middle lies ahead of the rear axle or behind it; allowed: one of them")
	a.Ahead -= behind
	t.refuse(whole && a.Wheelbase > 0 && a.Ahead > a.Wheelbase, "tank_ahead", "the tank's middle lies ahead of the front axle; allowed: up to %v", show(quantity.Width(a.Wheelbase)))
	t.refuse(whole && a.FrontEmpty > k.Empty, "front_empty", "front_empty %v is above empty_weight %v", show(a.FrontEmpty), show(k.Empty))
	over := whole && (a.FrontEmpty >= a.FrontLimit || k.Empty-a.FrontEmpty >= a.RearLimit)
	t.refuse(over, "front_limit", "an axle is over its limit when the truck is empty; allowed: above %v in front and %v behind", show(a.FrontEmpty), show(k.Empty-a.FrontEmpty))
	if whole {
		k.Axles = &a
	}
}

func readRoute(t *table, y *yard.Yard) {
	r := yard.Route{}
	t.readName(&r.Name)
	t.read(
		number("lane_miles", quantity.ParseLength, &r.Lanes).aboveZero(),
		number("area", quantity.ParseArea, &r.Area).aboveZero(),
		number("prewet", quantity.ParseVolumePerMass, &r.Prewet),
		number("salt_rate", quantity.ParseMassPerLength, &r.SaltRate),
		count("passes", &r.Passes),
		count("priority", &r.Priority),
		text("liquid", &r.Liquid),
		trucks(&r.Trucks),
	)
	switch {
	case t.has("area") == t.has("lane_miles"): // no size or two: a fault, and the unit of the rate is open
	case t.has("area"):
		t.read(number("rate", quantity.ParseRatePerArea, &r.AreaRate))
	default:
		t.read(number("rate", quantity.ParseRatePerLength, &r.Rate))
	}
	t.take("rate")
	checkRoute(t, r, y)
	y.Routes = append(y.Routes, r)
}

// trucks are the names of those that serve a route: one, or a list.
func trucks(to *[]string) key {
	const name = "truck"
	return key{name: name, read: func(t *table, value any) bool {
		if one, ok := value.(string); ok {
			*to = []string{one}
			return true
		}
		return names(name, to).read(t, value)
	}}
}

// checkRoute reports names that the yard does not have, and sizes and rates that contradict
// each other.
func checkRoute(t *table, r yard.Route, y *yard.Yard) {
	for _, name := range r.Trucks {
		_, known := y.Truck(name)
		t.refuse(!known, "truck", "no truck is named %s", words.Quoted(name))
	}
	t.checkSprayed(r.Liquid, y)
	t.both("prewet", "salt_rate")
	t.refuse(t.knows("prewet") && (t.has("rate") || t.knows("area")), "prewet",
		"a pre-wetted route has lane_miles and salt_rate, and no rate or area")
	t.refuse(t.knows("lane_miles", "area"), "area", "lane_miles and area are two sizes; allowed: one of them")
	t.refuse(!t.has("lane_miles") && !t.has("area"), "lane_miles", "its size is missing; allowed: lane_miles or area")
}

// checkSprayed refuses a liquid that no route of the yard can take.
func (t *table) checkSprayed(name string, y *yard.Yard) {
	t.refuse(name != "" && !y.Sprays(name), "liquid", "no liquid and no blend is named %s", words.Quoted(name))
}
