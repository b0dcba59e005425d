import { PRESENCE_NAMES, STATUS_NAMES, SYMPTOM_NAMES, type JobFacts } from "../../job-records/index.ts";

/**
 * The complaint in lines: words, conditions, recent work, trouble codes, symptoms.
 *
 * @param facts Where the job stands.
 */
export function complaintWords({ complaint, codes, symptoms }: JobFacts): readonly string[] {
  const { temperature, wetness, load, presence, weather } = complaint.conditions;
  const conditions = [
    temperature,
    wetness,
    load === undefined ? undefined : `only with ${load}`,
    presence && PRESENCE_NAMES[presence],
    weather === undefined ? undefined : `weather: ${weather}`,
    complaint.since === undefined ? undefined : `since ${complaint.since}`,
  ].filter((word) => word !== undefined);
  return [
    complaint.words,
    ...(conditions.length > 0 ? [`Conditions: ${conditions.join("; ")}`] : []),
    ...complaint.recentWork.map(({ text, touched }) =>
      touched.length > 0 ? `Recent work: ${text} (${touched.join(", ")})` : `Recent work: ${text}`,
    ),
    ...[...codes].map(([code, status]) => `DTC ${code}: ${STATUS_NAMES[status]}`),
    ...[...symptoms].map(([item, is]) => `Symptom ${item}: ${SYMPTOM_NAMES[is]}`),
  ];
}
