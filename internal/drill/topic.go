package drill

// Topic is the subject of a problem.
type Topic string

// The topics.
const (
	Strong  Topic = "strong"  // water for a tank that is too strong
	Weak    Topic = "weak"    // salt for a tank that is too weak
	Reading Topic = "reading" // the strength behind a hydrometer's reading in cold or warm brine
	Heel    Topic = "heel"    // a batch on a heel in the tank
	Blend   Topic = "blend"   // the mix of two liquids
	Truck   Topic = "truck"   // the load of a truck
	Valves  Topic = "valves"  // the valves to open and to shut
)

// drafter draws the numbers of a problem once, and answers it.
type drafter func(*draw) (draft, error)

// topic is a row of the table of topics: who drafts its problems, and which shops have the
// equipment for them.
type topic struct {
	name  Topic
	draft drafter
	fits  func(Shop) bool
}

// topics are all, in the order in which they are listed.
func topics() []topic {
	always := func(Shop) bool { return true }
	hasTanks := func(s Shop) bool { return len(s.tanks()) > 0 }
	return []topic{
		{Strong, strongTank, hasTanks},
		{Weak, weakTank, hasTanks},
		{Reading, readGlass, always},
		{Heel, batchOnHeel, func(s Shop) bool { return len(s.mixers()) > 0 }},
		{Blend, blendOf, always},
		{Truck, truckLoad, func(s Shop) bool { return len(s.haulers()) > 0 }},
		{Valves, valveSetting, func(s Shop) bool { return len(s.moves()) > 0 }},
	}
}

// Topics lists all topics.
func Topics() []Topic { return namesOf(topics()) }

// Topics lists the topics that the shop has the equipment for.
func (s Shop) Topics() []Topic { return namesOf(s.filled().topics()) }

func (s Shop) topics() []topic {
	var fit []topic
	for _, t := range topics() {
		if t.fits(s) {
			fit = append(fit, t)
		}
	}
	return fit
}

func namesOf(topics []topic) []Topic {
	var names []Topic
	for _, t := range topics {
		names = append(names, t.name)
	}
	return names
}
