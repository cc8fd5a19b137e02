// Copyright 2026 The Poise founders. Licence: Apache-2.0.
import { onMount, untrack } from 'svelte';
import type { Page, StudyKind } from '../api';
import { bench } from '../state.svelte';
import { Study } from './study.svelte';

/** The opened job's study of a kind, followed for as long as the room that opens it is there, in the units shown. */
export function openStudy<K extends StudyKind>(kind: K): Study<K> {
  const study = new Study(untrack(() => (bench.page as Page).name), kind);
  onMount(() => study.follow());
  $effect(() => {
    void bench.units;
    untrack(() => void study.ask());
  });
  return study;
}
