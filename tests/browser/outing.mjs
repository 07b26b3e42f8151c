// A visit in the invented reserve for the benchmark and the long kill test: no check value, only work to do.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Hand, loadCard } from "./form.mjs";
import { ROOT } from "./phone.mjs";

/** Answers by the name of what is asked; what is not named is answered "not looked". */
export const VISIT = {
  people_out: { text: "K7 B2" }, crew_count: { number: 2 }, roles: "recorder_and_handler", contact_told: "done",
  backup_told: "done", late_action_agreed: "done", air_temperature: { number: "-8" }, wind: { number: 10 },
  wind_read_at: "forecast_or_mast", permit: { text: "QR-DEMO-17" }, blades_out: { number: 2 }, gear_gloves: "done",
  land_leave: "reserve_or_public", ground: { seen: [] }, road_and_people: { seen: [] }, report_outcome: "found",
  place: { text: "47.95 -91.45" }, alive: "dead", species: "white_tailed_deer", animals_about: { seen: [] },
  others_dead_or_sick: { seen: [] }, people_on_body: { seen: [] }, people_round_body: { seen: [] }, tags: { seen: [] },
  danger_signs: { seen: [] }, own_tracks: "done", snow_over_body: "none", body_buried: "on_top",
  body_frozen: "not_frozen", touching_allowed: "card_names_me", thumb_to_finger: "easy", body_state: "whole",
  quick_class: "older", tracks_by: { many: ["fox"] }, snow_depth: { number: 64 }, sex_evidence: { many: ["udder_or_vulva"] },
  sex_called: "female", jaw_in_view: "left", cheek_teeth_count: { number: 6 }, third_tooth: "two_cusps_stained",
};

/** Loads the form and the invented card, takes the server away and goes out as one of the card's people. */
export async function onTheWay(phone, place) {
  await phone.open(place.url);
  await phone.offlineReady();
  const form = new Hand(phone.page);
  await phone.page.waitForSelector("main [data-tile]");
  await loadCard(form, readFileSync(join(ROOT, "demo/card.txt"), "utf8"));
  await phone.page.waitForSelector('main [data-tile="outing"]');
  await place.stop();
  await phone.page.reload();
  await form.tile("outing");
  await form.tile("person-K7");
  await phone.page.waitForSelector("main [data-ask]");
  return form;
}
