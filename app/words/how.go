package words

import "gapwright/app/job"

// How is what stands behind the fold of a step: what to do, why, how it is seen to be right, and what to do when it is not.
type How struct{ Do, Why, Right, IfNot string }

// Lines are its four sentences, each behind the word that it answers.
func (h How) Lines() [4][2]string {
	return [4][2]string{{"Do", h.Do}, {"Why", h.Why}, {"Right when", h.Right}, {"If not", h.IfNot}}
}

// StepHow is the How of a step in a method.
func StepHow(m job.Method, s job.Step) How { return howOf(m, string(s)) }

// QuestionHow is the How of a question in a method: its own, or that of the step that asks nothing else.
func QuestionHow(m job.Method, q job.Question) How {
	if h := howOf(m, string(q)); h != (How{}) {
		return h
	}
	return StepHow(m, q.Step())
}

func howOf(m job.Method, of string) How {
	for _, h := range hows {
		if h.of != of {
			continue
		}
		for _, of := range h.methods {
			if of == m {
				return h.How
			}
		}
		if h.methods == nil {
			return h.How
		}
	}
	return How{}
}

// hows are the steps, and the questions that stand on a screen of their own, in the order of the work. No methods: all others.
var hows = []struct {
	of      string
	methods []job.Method
	How
}{
	{string(job.BeforeYouStart), []job.Method{job.ByScrews, job.ByPosts}, How{
		"Try the key at one screw or wheel. Use a light hand, and tap what you find.",
		"A head that rounds off, or a screw that breaks, cannot be turned back.",
		"The key fits closely and each part turns freely.",
		"Give a stiff one a drop of thin oil and a day. If it still sticks, see a qualified repairer."}},
	{string(job.BeforeYouStart), []job.Method{job.NutSlots}, How{
		"Look at the nut, and at your files. Tap what is true of both.",
		"A slot that is too deep or too wide cannot be filed back.",
		"The nut is firm and whole, and there is a file for each string.",
		"Leave it as it is. A qualified repairer fills a slot or fits a new nut."}},
	{string(job.BeforeYouStart), []job.Method{job.SetRelief}, How{
		"Look at the head end, under any cover, and through the sound hole.",
		"The rod bends the neck a little. Not every neck has one.",
		"You can see it, and its own key goes all the way in.",
		"Turn nothing. Many nylon-string guitars and ukuleles have no rod. Here the neck can still be measured."}},
	{string(job.BeforeYouStart), nil, How{
		"Look along the saddle, the bridge and the top. Tap what you find.",
		"This work is for a loose saddle. One that is glued breaks, or takes wood with it.",
		"With slack strings it lifts out by hand. Nothing is cracked and nothing comes up.",
		"Go no further. Have it freed or mended by a qualified repairer first."}},
	{string(job.FixRelief), nil, How{
		"Read the bend. Turn an eighth, tune, wait some minutes, and read again.",
		"A bent neck lifts the strings. It moves what you read at fret 1 and at fret 12, so it comes first.",
		"The reading is as usual, with the strings in tune.",
		"Half a turn is the most for one day. If the rod sticks, creaks or does nothing, see a qualified repairer."}},
	{string(job.FixNut), nil, How{
		"Take one slot at a time: read it, file it if it is high, and read it again.",
		"A high nut makes the low frets hard to press, and sharp. No saddle can mend that.",
		"The gap is as wanted, and the open string rings clean.",
		"Still high: file it once more. Too low: stop, and have a qualified repairer fill it."}},
	{string(job.Measure), []job.Method{job.QuickCheck}, How{
		"Read both outer strings as you did when they were set: the same rule, at the same place.",
		"Two readings show if the strings have moved since then.",
		"At the mark you tap there is light. At the next one there is none.",
		"Read that string once more. The new reading takes the place of the old."}},
	{string(job.Measure), nil, How{
		"Find the last mark with light between it and the string. Tap that one.",
		"This gap is the height that your hand feels. All that comes next is worked out from it.",
		"The mark above it shows no light, and a second look says the same.",
		"Bring your eye level with the string, and turn to a brighter light. If your rule is too coarse, use feelers or cards."}},
	{string(job.AskStrings), nil, How{
		"Say if you will play on these very strings.",
		"Thicker strings pull harder and bend the neck more; thinner ones do less of both.",
		"The readings are of the strings that stay.",
		"Fit the new set first. Let it settle, and measure then."}},
	{string(job.Diagnose), nil, How{
		"Set what is named here, or have it set. Then read it again.",
		"If the saddle is cut for a bent neck or a high nut, it is too low once they are put right.",
		"The new reading is as usual.",
		"Not sure? Ask a qualified repairer. If it is meant to be so, leave it and go on."}},
	{string(job.AskBuzz), nil, How{
		"Go up each string, one fret after the other. Listen for a rattle, or a note that dies.",
		"Lower strings buzz sooner. If it buzzes now, this work would hide the cause or make it worse.",
		"Each note rings clean, soft or loud.",
		"First find the cause: a high fret, a flat neck, or a loose part."}},
	{string(job.Choose), nil, How{
		"Tap whose touch is most like yours. Then move a string up or down until it suits you.",
		"Low strings are easy to press, but buzz sooner. High ones ring free, but tire the hand.",
		"It says that there is room enough.",
		"Go up a little, or test your own touch on the strings as they are."}},
	{string(job.AskRoom), nil, How{
		"Look at a hygrometer: a cheap one will do. Tap what it shows.",
		"A cut that is made in damp air is too deep once the wood dries.",
		"It shows 40 to 60\u00a0%, and the instrument has been in this room for a day.",
		"Wait some days in such air, and measure again."}},
	{string(job.MakePlan), []job.Method{job.RaiseByStrip}, How{
		"Find strips that make up this height at each end.",
		"A strip can be taken out again. So it must reach even if each reading is at its worst.",
		"Your pile is as thick as this, or a little more.",
		"Try other strips. If far too much is missing, a new saddle is better."}},
	{string(job.MakePlan), []job.Method{job.NewSaddle}, How{
		"Note these heights. Nowhere may the new saddle be lower.",
		"What is too high can be sanded off later. What is too low is lost.",
		"You know from where each height counts: the underside, or the wood.",
		"Measure the old saddle once more, or choose other heights."}},
	{string(job.MakePlan), []job.Method{job.ByScrews, job.ByPosts}, How{
		"Look at the turns. If they suit you, go on.",
		"The thread tells how far a turn moves a string, so turns can be told ahead.",
		"No turn surprises you, and the thread is the right one.",
		"Try a turn, with a reading before and after it. Or choose other heights."}},
	{string(job.MakePlan), nil, How{
		"Take in the two numbers. This round takes off no more than that.",
		"What is gone stays gone, so each reading counts at its worst.",
		"Both numbers make sense to you, and nothing here warns you.",
		"Choose other heights, read more finely, or leave all as it is."}},
	{string(job.TakeOut), nil, How{
		"Loosen each string a little, one after the other, until all are slack. Then lift the saddle straight up.",
		"Even pull keeps the neck and the top from harm. What lies under the saddle changes what comes next.",
		"It came out by hand, and you have seen the floor of the slot.",
		"Use no pliers, and do not lever: both leave marks for good. A qualified repairer frees a stuck one."}},
	{string(job.Lay), nil, How{
		"Brush the slot out. Cut each strip as long and as wide as its floor, and lay it flat.",
		"Where there is a hollow under it, the saddle can crack and the tone gets weak.",
		"Pressed together, the pile is as thick as it should be at both ends.",
		"Enter what went in. If it comes out too high, undo back to here and lay less."}},
	{string(job.MakeSaddle), nil, How{
		"Go down the list, and tick each part when it is done.",
		"Each part is measured from the one before: first the fit, then the underside, then the heights.",
		"It stands upright in the slot by itself, and is nowhere lower than planned.",
		"Too high is all right: it is sanded later. If it is too low, take a new blank."}},
	{string(job.AskWayUp), nil, How{
		"Look from the end where the key goes in. Turn it like the hands of a clock.",
		"Some bridges push up where others pull down, so look and do not guess.",
		"You saw the string rise or sink.",
		"The plan counts turns up and down in any case. Look again after the first half turn."}},
	{string(job.Turn), []job.Method{job.ByPosts}, How{
		"Loosen the strings until the posts turn by hand. Turn one side, then the other.",
		"A post that turns under load wears, and marks the top.",
		"Both sides have had their turns, and the bridge never hung askew.",
		"Lost count? Set here what you did turn. If a wheel is at its end, stop and see a qualified repairer."}},
	{string(job.Turn), nil, How{
		"Go down the list. Slacken a string before you raise it, and tune after each one.",
		"The strings between follow the outer two, so these come first.",
		"Each string has had its turns, and each saddle stands level.",
		"Lost count? Set here what you did turn. If a screw is at its end, stop and see a qualified repairer."}},
	{string(job.AskFollow), nil, How{
		"Pick what you have, and what you see best.",
		"Sanding is quick, and you cannot feel when it is enough.",
		"You can read it, or see it, at both ends.",
		"Pick another one here. It can be changed while you mark."}},
	{string(job.Mark), nil, How{
		"Use a sharp point and a straight edge. Measure up from the underside at both ends.",
		"The line tells when to stop. The B tells which way the saddle goes back in.",
		"The line is thin and straight, and its ends are as high as it says here.",
		"Wipe it off and draw it again, as often as you like. Nothing is cut yet."}},
	{string(job.Sand), nil, How{
		"Tape the paper to glass or a flat tile. Hold the saddle low and upright, and draw it along its length.",
		"Only a flat and square underside sits firm in its slot.",
		"Line or height is reached at both ends. With a straight edge under it you see no light.",
		"One end is behind: press more on that end. Past the line: stop, put it back and measure."}},
	{string(job.Smooth), nil, How{
		"Lay fine paper on the same flat base. Give it a few light strokes, then one along each edge.",
		"A smooth underside carries sound well. But each stroke takes off a little more.",
		"It looks even, and it is still flat and square.",
		"A few scratches do no harm. Better leave them than go too low."}},
	{string(job.Seat), nil, How{
		"Turn it the way you marked it. Push it home, and try each end with one finger.",
		"If it rocks or leans, each height that you read is false.",
		"It takes a gentle push, stands straight, and nothing clicks.",
		"Lift it out, and look for dirt or a high place. A saddle that leans needs to be thicker."}},
	{string(job.StringUp), nil, How{
		"Bring them up evenly, a little on each in turn. Wear glasses when you cut ends off.",
		"The wood gives for a while. What you read too soon is not true.",
		"It is still in tune when you come back to it.",
		"Wait longer. Steel needs up to half an hour. New nylon takes one to three days."}},
	{string(job.MeasureAgain), []job.Method{job.RaiseByStrip}, How{
		"Read as you did before: the same strings, in tune, held the same way.",
		"Only this shows what the strips have done.",
		"The height you want lies within the reading, and each note rings clean.",
		"Too high: lay less. Too low: go another round and lay more."}},
	{string(job.MeasureAgain), []job.Method{job.ByScrews, job.ByPosts}, How{
		"Read as you did before: the same strings, in tune, held the same way.",
		"Only this shows what the turns have done.",
		"The height you want lies within the reading, and each note rings clean.",
		"Go another round. What was turned can be turned back."}},
	{string(job.MeasureAgain), nil, How{
		"Read as you did before: the same strings, in tune, held the same way.",
		"Only this shows what your work has done.",
		"The height you want lies within the reading, and each note rings clean.",
		"Still high: go another round. Too low: a strip under the saddle lifts it."}},
	{string(job.Save), []job.Method{job.NutSlots, job.SetRelief}, How{
		"Look through what you read. Save it when it is all there.",
		"It shows later how the neck was, and what was done to it.",
		"These are the readings that you took last.",
		"Undo, and read again. Nothing is kept as final before you tap."}},
	{string(job.Save), nil, How{
		"Look through the readings. Add the air of the room if you know it.",
		"Later checks are held against these heights.",
		"These are the readings that you took last.",
		"Undo, and read again. Nothing is kept as final before you tap."}},
}
