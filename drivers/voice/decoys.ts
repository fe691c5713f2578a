/**
 * Common English words that speech which is no command is heard as, so that it need not be heard as a command. The words
 * of the phrases are among them: a phrase inside a sentence is then cheaper to explain as a sentence.
 */
export const DECOYS: readonly string[] = `
a about above across after afternoon again ago all almost alone along already also always am an and another any
anybody anyone anything are around as ask at away baby back bad be beautiful because bed been before began behind
being believe best better between big bit black blue boy bread bring brother brought business busy but buy by call
came can cannot car case change children city clean close coffee cold come coming could country course day did
different dinner do does doing don't done door down drive each early easy eat eight either eleven else end enough
even evening ever every everybody everything eyes face fact family far father feel few find fine first five food
for forget found four friday friend from full game gave get getting girl give go going gone good got great green
had half hand happened happy hard has have he head hear heard hello help her here high him his home hope hour house
how hundred i idea if important in inside into is it its itself job just keep kind kitchen knew know last late
later laugh learn leave left less let life light like line listen little live long look looking lost lot love lunch
made make man many market matter may maybe me mean might minute miss moment monday money month more morning most
mother move much music must my name near need never new news next nice night nine no nobody not nothing now number
o'clock of off office often okay old on once one only open or other our out outside over own paper park party pay
people perhaps person phone place plan play please possible problem put question quickly quite radio rain read
ready really red remember rest right road room round run said same saturday saw say says school see seen send
seven she shop should show side since sit six sleep small so some somebody someone something soon sorry sound
speak start still stop store story street such summer sunday sure table take talk tell ten than thank thanks that
the their them then there these they thing things think this those though thought thousand three through time tired
to today together told tomorrow tonight too took town train tree tried true try turn twelve twenty two under
understand until up us use used usually very wait walk want warm was watch water way we weather week well went were
what when where which while white who whole why wife will window winter with without woman won't wonder word work
world would wrong year yes yesterday yet you young your
`
  .trim()
  .split(/\s+/);
