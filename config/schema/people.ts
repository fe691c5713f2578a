import { z } from 'zod';
import { COUPLINGS, DEFAULT_POSTURE } from '#shared/care/lifting.ts';
import { DEFAULT_GUIDANCE, GUIDANCE_LEVELS } from '#shared/guidance/level.ts';
import { DEFAULT_PEOPLE, GATES, PROBLEMS, type PeopleRules } from '#shared/people/rules.ts';
import { toMillimetres } from '#shared/units/length.ts';
import { id, length, localised } from './quantities.ts';

const packs = z.int().min(1).max(1000);
const times = z.int().min(0).max(100);
const place = z.strictObject({ horizontal: length, height: length });

/** people.yaml, which a shop may leave out */
export const peopleFile = z.strictObject({
  guidance: z
    .strictObject({
      start: z.enum(GUIDANCE_LEVELS),
      cleanToBrief: packs,
      cleanToQuiet: packs,
      restDays: z.int().min(1).max(3650).optional(),
    })
    .optional(),
  care: z
    .strictObject({
      pause: z.strictObject({ afterMinutes: z.int().min(5).max(600), restMinutes: z.int().min(1).max(120) }).optional(),
      lift: z
        .strictObject({
          from: place,
          to: place,
          turnDegrees: z.number().min(0).max(135),
          coupling: z.enum(COUPLINGS),
          perMinute: z.number().min(0).max(15),
          hours: z.union([z.literal(1), z.literal(2), z.literal(8)]),
        })
        .optional(),
    })
    .optional(),
  skills: z
    .strictObject({
      gate: z.enum(GATES),
      /** by id */
      list: z.record(
        id,
        z.strictObject({
          name: localised,
          kinds: z.array(id).default([]),
          problems: z.array(z.enum(PROBLEMS)).default([]),
          practise: z.strictObject({
            guided: times.default(0),
            choose: times.default(0),
            spot: times.default(0),
          }),
        }),
      ),
    })
    .optional(),
});

export type PeopleFile = z.output<typeof peopleFile>;

const centimetres = ({ horizontal, height }: z.output<typeof place>) => ({
  horizontal: toMillimetres(horizontal) / 10,
  height: toMillimetres(height) / 10,
});

export function toPeopleRules({ guidance, care, skills }: PeopleFile): PeopleRules {
  const lift = care?.lift;
  return {
    guidance: guidance === undefined ? DEFAULT_GUIDANCE : { ...guidance, restDays: guidance.restDays ?? null },
    pause: care?.pause ?? null,
    lift:
      lift === undefined
        ? DEFAULT_POSTURE
        : {
            from: centimetres(lift.from),
            to: centimetres(lift.to),
            turn: lift.turnDegrees,
            coupling: lift.coupling,
            perMinute: lift.perMinute,
            hours: lift.hours,
          },
    gate: skills?.gate ?? DEFAULT_PEOPLE.gate,
    skills:
      skills === undefined
        ? DEFAULT_PEOPLE.skills
        : Object.entries(skills.list).map(([skill, of]) => ({ id: skill, ...of })),
  };
}
