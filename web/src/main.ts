// Copyright 2026 The Poise founders. Licence: Apache-2.0.
import { mount } from 'svelte';
import App from './App.svelte';
import './style.css';
import { startTheme } from './theme';

startTheme();
const place = document.getElementById('app');
if (place) {
  place.replaceChildren();
  mount(App, { target: place });
}
